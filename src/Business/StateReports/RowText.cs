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
    private static readonly JsonEncodedText[] Names = [.. ReportFields.All.Select(f => JsonEncodedText.Encode(f.Name))];
    private readonly int[] _shown;
    private readonly int[] _amending;
    private readonly ArrayBufferWriter<byte> _buffer = new(2048);

    public RowText(ReportProfile profile)
    {
        _shown = [.. profile.Fields.Where(f => f.Known is { Of: FieldOf.System }).Select(f => f.Place).Distinct().Order()];
        var amending = profile.Fields.Where(f => f.Amends).Select(f => f.Place).ToHashSet();
        _amending = [.. _shown.Where(amending.Contains)];
    }

    public string Of(ReportValues values) => Encoding.UTF8.GetString(Write(values));

    /// <summary>Whether a kept text says word for word what the values are.</summary>
    public bool IsOf(string kept, ReportValues values)
    {
        var now = Write(values);
        if (kept.Length > now.Length) return false;
        var bytes = ArrayPool<byte>.Shared.Rent(Encoding.UTF8.GetMaxByteCount(kept.Length));
        try
        {
            return bytes.AsSpan(0, Encoding.UTF8.GetBytes(kept, bytes)).SequenceEqual(now);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(bytes);
        }
    }

    private ReadOnlySpan<byte> Write(ReportValues values)
    {
        _buffer.ResetWrittenCount();
        using (var json = new Utf8JsonWriter(_buffer, Options))
        {
            json.WriteStartObject();
            foreach (var place in _shown) json.WriteString(Names[place], values[place]);
            json.WriteEndObject();
        }

        return _buffer.WrittenSpan;
    }

    /// <summary>The values of a kept text; a name the office no longer knows is passed over.</summary>
    public static ReportValues Read(string json)
    {
        var values = new ReportValues();
        var length = Encoding.UTF8.GetMaxByteCount(json.Length);
        var bytes = ArrayPool<byte>.Shared.Rent(length);
        try
        {
            var reader = new Utf8JsonReader(bytes.AsSpan(0, Encoding.UTF8.GetBytes(json, bytes)));
            var place = -1;
            while (reader.Read())
            {
                if (reader.TokenType == JsonTokenType.PropertyName) place = ReportFields.PlaceOf(reader.GetString()!);
                else if (reader.TokenType == JsonTokenType.String && place >= 0) values.Put(place, reader.GetString()!);
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(bytes);
        }

        return values;
    }

    /// <summary>Names whose value now is not the one reported, of those that are reported on change. A name that was not reported then is no change.</summary>
    public IReadOnlyList<string> Changed(string reported, ReportValues now)
    {
        var then = Read(reported);
        return [.. _amending.Where(p => then.Has(p) && then[p] != now[p]).Select(p => ReportFields.All[p].Name)];
    }
}
