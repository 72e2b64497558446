using Microsoft.AspNetCore.Mvc.ModelBinding;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Pages.MyHouse;

/// <summary>What a house owner types on their own page.</summary>
public sealed class OwnerWordForm
{
    public string? Day { get; set; }
    public string? Result { get; set; }
    public string? Name { get; set; }
    public string? Email { get; set; }
    public string? Phone { get; set; }
    public string? Postal { get; set; }
    public string? Words { get; set; }

    /// <summary>The word for the office, or null with the refusals noted.</summary>
    public OwnerWord? Read(string step, DateOnly today, ModelStateDictionary state)
    {
        var word = new OwnerWord
        {
            Kind = step switch { "tested" => OwnerWordKind.TestDone, "address" => OwnerWordKind.NewAddress, "sold" => OwnerWordKind.Sold, _ => OwnerWordKind.BookRetest },
            Name = Text(Name, nameof(Name), 200, state),
            Email = Text(Email, nameof(Email), 254, state),
            Phone = Text(Phone, nameof(Phone), 40, state),
            PostalAddress = Text(Postal, nameof(Postal), 300, state),
            Words = Text(Words, nameof(Words), 1000, state),
        };
        if (step is not ("book" or "tested" or "address" or "sold")) return null;
        if (word.Email.Length > 0 && !MailAddress.IsUsable(word.Email)) Refuse(state, nameof(Email), "Write the e-mail address in full, for example name@example.com.");
        if (step is "tested" or "sold") word.OnDay = ReadDay(step, today, state);
        if (step == "tested") word.PCiL = ReadResult(state);
        if (step == "address" && word.Email.Length + word.Phone.Length + word.PostalAddress.Length == 0) Refuse(state, nameof(Email), "Write what has changed: e-mail, phone or postal address.");
        return state.IsValid ? word : null;
    }

    private DateOnly? ReadDay(string step, DateOnly today, ModelStateDictionary state)
    {
        var name = step == "sold" ? "day of the sale" : "day on which the test ended";
        var (day, problem) = TypedNumbers.ReadDay(Day, name);
        if (problem is not null) Refuse(state, nameof(Day), problem);
        else if (day is null && step == "tested") Refuse(state, nameof(Day), $"Write the {name}.");
        else if (day > today && step == "tested") Refuse(state, nameof(Day), "That day has not come yet.");
        return day;
    }

    private decimal? ReadResult(ModelStateDictionary state)
    {
        var typed = (Result ?? "").Replace("pCi/L", "", StringComparison.OrdinalIgnoreCase).Trim();
        var (level, problem) = TypedNumbers.ReadDecimal(typed, "result", 0m, 3000m);
        if (problem is not null) Refuse(state, nameof(Result), problem);
        else if (level is null) Refuse(state, nameof(Result), "Write the result as it stands on the report, for example 1.4.");
        return level;
    }

    private static string Text(string? typed, string field, int most, ModelStateDictionary state)
    {
        var text = (typed ?? "").Trim();
        if (text.Length > most) Refuse(state, field, $"That is too long: at most {most} characters.");
        return text;
    }

    private static void Refuse(ModelStateDictionary state, string field, string words) => state.AddModelError($"Input.{field}", words);
}
