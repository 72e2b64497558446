using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <summary>A row's values as the text that is kept: the values of a system that a profile's files show, in the order of the general layout.</summary>
public sealed class RowText
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private readonly string[] _shown;
    private readonly HashSet<string> _amending;
    private readonly ArrayBufferWriter<byte> _buffer = new(1024);

    public RowText(ReportProfile profile)
    {
        var shown = profile.Fields.Select(f => f.From).ToHashSet(StringComparer.Ordinal);
        _shown = [.. ReportFields.All.Where(f => f.Of == FieldOf.System && shown.Contains(f.Name)).Select(f => f.Name)];
        _amending = profile.Fields.Where(f => f.Amends).Select(f => f.From).ToHashSet(StringComparer.Ordinal);
    }

    public string Of(ReportValues values)
    {
        _buffer.ResetWrittenCount();
        using (var json = new Utf8JsonWriter(_buffer, Options))
        {
            json.WriteStartObject();
            foreach (var name in _shown) json.WriteString(name, values[name]);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(_buffer.WrittenSpan);
    }

    public static Dictionary<string, string> Read(string json) => JsonSerializer.Deserialize<Dictionary<string, string>>(json)!;

    /// <summary>Names whose value now is not the one reported, of those that are reported on change. A name that was not reported then is no change.</summary>
    public IReadOnlyList<string> Changed(string reported, ReportValues now)
    {
        if (reported == Of(now)) return [];
        var then = Read(reported);
        return [.. _shown.Where(n => _amending.Contains(n) && then.TryGetValue(n, out var was) && was != now[n])];
    }
}
