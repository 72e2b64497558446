using System.Text;

namespace MitigationOffice.Web.Setup.Forms;

/// <summary>Enum values in plain words, and as options to choose from.</summary>
public static class Words
{
    public static string Of(Enum value)
    {
        var name = value.ToString();
        var words = new StringBuilder();
        for (var i = 0; i < name.Length; i++)
        {
            if (i > 0 && (char.IsUpper(name[i]) || (char.IsDigit(name[i]) && !char.IsDigit(name[i - 1])))) words.Append(' ');
            words.Append(i == 0 ? name[i] : char.ToLowerInvariant(name[i]));
        }

        return words.ToString();
    }

    public static IEnumerable<(string Value, string Words)> Options<T>(string? none = null)
        where T : struct, Enum
    {
        if (none is not null) yield return ("", none);
        foreach (var value in Enum.GetValues<T>()) yield return (value.ToString(), Of(value));
    }
}
