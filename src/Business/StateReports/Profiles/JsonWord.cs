namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>A choice as a profile's text spells it: small letters, dashes between the parts.</summary>
public static class JsonWord
{
    public static string Of(Enum value) =>
        string.Concat(value.ToString().Select((c, i) => char.IsUpper(c) ? (i > 0 ? "-" : "") + char.ToLowerInvariant(c) : c.ToString()));
}
