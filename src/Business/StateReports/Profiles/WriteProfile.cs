using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization.Metadata;

namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>A profile as its text, every value said: what a frozen report remembers, and what the office may hand to others.</summary>
public static class WriteProfile
{
    private static readonly JsonSerializerOptions Options = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, TypeInfoResolver = new DefaultJsonTypeInfoResolver() };

    public static string Text(ReportProfile p) => new JsonObject
    {
        ["code"] = p.Code,
        ["name"] = p.Name,
        ["jurisdiction"] = p.Jurisdiction,
        ["state"] = p.State,
        ["citation"] = p.Citation,
        ["read"] = p.Read?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
        ["notKnown"] = List(p.NotKnown),
        ["period"] = JsonWord.Of(p.Period),
        ["deadline"] = Deadline(p.Deadline),
        ["events"] = List(p.Events.Select(e => JsonWord.Of(e))),
        ["nilReport"] = p.NilReport,
        ["fee"] = new JsonObject { ["cents"] = p.Fee.Cents, ["deadline"] = Deadline(p.Fee.Deadline), ["citation"] = p.Fee.Citation },
        ["retention"] = new JsonObject { ["years"] = p.Retention.Years, ["orLongerWarranty"] = p.Retention.OrLongerWarranty, ["forEver"] = p.Retention.ForEver, ["citation"] = p.Retention.Citation },
        ["privacy"] = new JsonObject { ["addressesPrivate"] = p.Privacy.AddressesPrivate, ["ownerOnly"] = p.Privacy.OwnerOnly, ["words"] = p.Privacy.Words, ["citation"] = p.Privacy.Citation },
        ["files"] = List(p.Files.Select(f => JsonWord.Of(f))),
        ["fields"] = new JsonArray([.. p.Fields.Select(Field)]),
    }.ToJsonString(Options);

    private static JsonNode Field(ProfileField f)
    {
        var field = new JsonObject { ["name"] = f.Name };
        if (f.From.Length > 0) field["from"] = f.From;
        else field["value"] = f.Value;
        if (f.Format.Length > 0) field["format"] = f.Format;
        field["required"] = f.Required;
        field["amends"] = f.Amends;
        if (f.Most > 0) field["most"] = f.Most;
        if (f.Map.Count > 0) field["map"] = new JsonObject(f.Map.OrderBy(m => m.Key, StringComparer.Ordinal).Select(m => KeyValuePair.Create(m.Key, (JsonNode?)m.Value)));
        return field;
    }

    private static JsonObject Deadline(DeadlineRule rule) => new() { ["rule"] = JsonWord.Of(rule.Kind), ["days"] = rule.Days };

    private static JsonArray List(IEnumerable<string> texts) => new([.. texts.Select(t => (JsonNode?)t)]);
}
