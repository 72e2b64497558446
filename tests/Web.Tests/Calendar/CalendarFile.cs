using System.Text;

namespace MitigationOffice.Web.Tests.Calendar;

/// <summary>A strict little reader of RFC 5545 text, written from the standard alone and independent of the library that writes the feed:
/// CRLF line ends, lines of at most 75 octets, folding between whole characters, parameters, escapes, nested components.</summary>
internal sealed class CalendarFile
{
    internal sealed record Property(string Name, IReadOnlyDictionary<string, string> Parameters, string Raw)
    {
        /// <summary>Section 3.3.11: what stands for line ends, commas, semicolons and backslashes.</summary>
        public string Text
        {
            get
            {
                var text = new StringBuilder();
                for (var i = 0; i < Raw.Length; i++)
                {
                    if (Raw[i] != '\\') text.Append(Raw[i]);
                    else text.Append(Raw[++i] switch { 'n' or 'N' => '\n', var c and (',' or ';' or '\\') => c, var c => throw new FormatException($"\\{c} is no escape.") });
                }

                return text.ToString();
            }
        }
    }

    internal sealed class Component(string name)
    {
        public string Name { get; } = name;
        public List<Property> Properties { get; } = [];
        public List<Component> Parts { get; } = [];

        public Property? Find(string property) => Properties.SingleOrDefault(p => p.Name == property);

        public string this[string property] => Find(property)?.Text ?? throw new FormatException($"{Name} has no {property}.");
    }

    public static Component Read(byte[] bytes)
    {
        var text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        if (!text.EndsWith("\r\n", StringComparison.Ordinal)) throw new FormatException("The last line does not end in CRLF.");
        var lines = text.Split("\r\n")[..^1];
        foreach (var line in lines)
        {
            if (line.Contains('\n', StringComparison.Ordinal) || line.Contains('\r', StringComparison.Ordinal)) throw new FormatException("A line end that is not CRLF.");
            if (Encoding.UTF8.GetByteCount(line) > 75) throw new FormatException($"A line of {Encoding.UTF8.GetByteCount(line)} octets: {line}");
            if (line.Any(c => char.IsControl(c) && c != '\t')) throw new FormatException("A control character.");
        }

        var whole = new List<string>();
        foreach (var line in lines)
        {
            if (line.Length > 0 && line[0] is ' ' or '\t') whole[^1] += line[1..];
            else whole.Add(line);
        }

        var open = new Stack<Component>();
        Component? root = null;
        foreach (var property in whole.Select(PropertyOf))
        {
            if (property.Name == "BEGIN")
            {
                var begun = new Component(property.Raw);
                if (open.TryPeek(out var parent)) parent.Parts.Add(begun);
                else root = root is null ? begun : throw new FormatException("Two calendars.");
                open.Push(begun);
            }
            else if (property.Name == "END")
            {
                if (open.Pop().Name != property.Raw) throw new FormatException($"END:{property.Raw} ends something else.");
            }
            else open.Peek().Properties.Add(property);
        }

        return open.Count == 0 && root is { Name: "VCALENDAR" } ? root : throw new FormatException("The calendar does not end.");
    }

    private static Property PropertyOf(string line)
    {
        var (quoted, colon) = (false, -1);
        for (var i = 0; i < line.Length && colon < 0; i++)
        {
            if (line[i] == '"') quoted = !quoted;
            else if (line[i] == ':' && !quoted) colon = i;
        }

        if (colon < 1) throw new FormatException($"No value: {line}");
        var head = line[..colon].Split(';');
        if (!head[0].All(c => char.IsAsciiLetterOrDigit(c) || c == '-')) throw new FormatException($"Not a name: {head[0]}");
        return new(head[0].ToUpperInvariant(), head.Skip(1).Select(p => p.Split('=', 2)).ToDictionary(p => p[0].ToUpperInvariant(), p => p[1].Trim('"')), line[(colon + 1)..]);
    }
}
