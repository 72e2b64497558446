using System.Globalization;
using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes;

/// <summary>The hash of everything a revision offered: every column of the revision, its choices, lines, additions and second
/// phase, but for those that tell what became of it.</summary>
public static class SealOffer
{
    /// <summary>What changes after a revision was sent.</summary>
    private static readonly HashSet<string> Later =
    [
        nameof(Record.Version), nameof(QuoteRevision.State), nameof(QuoteRevision.DeclineReason), nameof(QuoteRevision.LostBecause), nameof(QuoteRevision.ClosedAtUtc), nameof(QuoteRevision.SentSha256),
    ];

    public static string Of(QuoteRevision r)
    {
        var text = new StringBuilder();
        Write(text, r);
        foreach (var tier in r.Tiers.OrderBy(t => t.Id))
        {
            Write(text, tier);
            foreach (var line in tier.Lines.OrderBy(l => l.Id)) Write(text, line);
        }

        foreach (var addOn in r.AddOns.OrderBy(a => a.Id)) Write(text, addOn);
        if (r.Phase is { } phase) Write(text, phase);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }

    private static void Write(StringBuilder text, Record row)
    {
        text.Append(row.GetType().Name).Append('{');
        foreach (var column in Columns(row.GetType()))
        {
            var value = Plain(column.GetValue(row));
            text.Append(CultureInfo.InvariantCulture, $"{column.Name}:{value.Length}:{value};");
        }

        text.Append('}');
    }

    /// <summary>Values that can be written, in the order of their names; what leads to other rows is not among them.</summary>
    public static IEnumerable<PropertyInfo> Columns(Type row) => row.GetProperties()
        .Where(p => p.CanWrite && !Later.Contains(p.Name) && (p.PropertyType == typeof(string) || (Nullable.GetUnderlyingType(p.PropertyType) ?? p.PropertyType).IsValueType))
        .OrderBy(p => p.Name, StringComparer.Ordinal);

    /// <summary>As every database gives it back: six decimals, microseconds.</summary>
    private static string Plain(object? value) => value switch
    {
        null => "\0",
        Money money => money.Cents.ToString(CultureInfo.InvariantCulture),
        decimal number => number.ToString("0.######", CultureInfo.InvariantCulture),
        DateTime at => at.ToString("yyyy-MM-ddTHH:mm:ss.ffffff", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => $"{value}",
    };
}
