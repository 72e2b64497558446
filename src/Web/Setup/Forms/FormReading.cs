using FluentValidation.Results;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Setup.Forms;

/// <summary>Turns what was typed into values; what cannot be read becomes a refusal at its field.</summary>
public sealed class FormReading(ModelStateDictionary state, string prefix, UnitSystem units)
{
    public double? Measure(Measure measure, string? typed, string field, bool needed = false) =>
        Take(measure.Read(typed, units) is var read ? read.Value : null, read.Problem, typed, field, measure.Name, needed);

    /// <summary>A measured value that must be there; 0 stands in while the refusal is shown.</summary>
    public double Needed(Measure measure, string? typed, string field) => Measure(measure, typed, field, needed: true) ?? 0;

    public decimal? Number(string? typed, string field, string name, decimal least, decimal most, bool needed = false)
    {
        var (value, problem) = TypedNumbers.ReadDecimal(typed, name, least, most);
        return Take(value, problem, typed, field, name, needed);
    }

    public int? Whole(string? typed, string field, string name, int least, int most, bool needed = false)
    {
        var (value, problem) = TypedNumbers.ReadWhole(typed, name, least, most);
        return Take(value, problem, typed, field, name, needed);
    }

    public Money? Money(string? typed, string field, string name, bool needed = false)
    {
        var (value, problem) = TypedNumbers.ReadMoney(typed, name);
        return Take(value, problem, typed, field, name, needed);
    }

    public DateOnly? Day(string? typed, string field, string name, bool needed = false)
    {
        var (value, problem) = TypedNumbers.ReadDay(typed, name);
        return Take(value, problem, typed, field, name, needed);
    }

    public TimeOnly? Time(string? typed, string field, string name, bool needed = false)
    {
        var (value, problem) = TypedNumbers.ReadTime(typed, name);
        return Take(value, problem, typed, field, name, needed);
    }

    /// <summary>Trimmed text; a refusal when it is needed and empty.</summary>
    public string Text(string? typed, string field, string name, bool needed = false, int most = 20_000)
    {
        var text = (typed ?? "").Trim().Replace("\0", "", StringComparison.Ordinal);
        if (needed && text.Length == 0) Refuse(field, $"Write the {name}.");
        if (text.Length > most) Refuse(field, $"The {name} is longer than {most} characters; shorten it.");
        return text;
    }

    public void Refuse(string field, string words) => state.AddModelError(field.Length == 0 ? "" : $"{prefix}.{field}", words);

    public void Refuse(ValidationResult result)
    {
        foreach (var error in result.Errors) Refuse(error.PropertyName, error.ErrorMessage);
    }

    private T? Take<T>(T? value, string? problem, string? typed, string field, string name, bool needed)
        where T : struct
    {
        if (problem is not null) Refuse(field, problem);
        else if (needed && string.IsNullOrWhiteSpace(typed)) Refuse(field, $"Write the {name}.");
        return value;
    }
}
