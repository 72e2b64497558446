using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Houses;

/// <summary>Reads what the forms of houses and customers need beyond the common kinds.</summary>
public static class HouseReading
{
    /// <summary>One of a few; empty gives <paramref name="ifEmpty"/>, anything else that is not on the list is refused.</summary>
    public static T Choice<T>(this FormReading read, string? typed, string field, string name, T ifEmpty, bool needed = false)
        where T : struct, Enum
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            if (needed) read.Refuse(field, $"Choose the {name}.");
            return ifEmpty;
        }

        if (Enum.GetNames<T>().Contains(typed, StringComparer.Ordinal)) return Enum.Parse<T>(typed);
        read.Refuse(field, $"Choose the {name} from the list.");
        return ifEmpty;
    }

    /// <summary>A measured value; when the field still shows the stored one, rounded for reading, the stored one stays as it is.</summary>
    public static double? Kept(this FormReading read, Measure measure, string? typed, double? stored, string field, UnitSystem units) =>
        stored is not null && (typed ?? "").Trim() == measure.Number(stored, units) ? stored : read.Measure(measure, typed, field);

    public static string Email(this FormReading read, string? typed, string field)
    {
        var email = read.Text(typed, field, "e-mail address", most: 254);
        if (email.Length > 0 && !LooksLikeEmail(email)) read.Refuse(field, $"“{Short(email)}” is not an e-mail address. Write it like name@example.org, or leave it empty.");
        return email;
    }

    public static string Phone(this FormReading read, string? typed, string field, string name = "phone number")
    {
        var phone = read.Text(typed, field, name, most: 60);
        if (phone.Length > 0 && phone.Count(char.IsAsciiDigit) is < 7 or > 20) read.Refuse(field, $"Write the {name} with its area code, or leave it empty.");
        return phone;
    }

    private static bool LooksLikeEmail(string email) =>
        email.Split('@') is [{ Length: > 0 }, { Length: > 2 } host] && host.Contains('.', StringComparison.Ordinal) && !host.StartsWith('.') && !host.EndsWith('.')
        && !email.Any(c => char.IsWhiteSpace(c) || char.IsControl(c) || c is ',' or ';' or '<' or '>' or '"');

    private static string Short(string text) => text.Length <= 60 ? text : text[..60] + "…";
}
