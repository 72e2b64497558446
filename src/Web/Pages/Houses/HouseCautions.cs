using MitigationOffice.Business.Houses;

namespace MitigationOffice.Web.Pages.Houses;

/// <summary>What in a house can hurt the people who work there or live there, told where it is written down.</summary>
public sealed record HouseCaution(string Title, string Words, string Source)
{
    private const int LeadPaintYear = 1978;

    public static IEnumerable<HouseCaution> Of(House house)
    {
        if (house.VermiculiteSuspected)
            yield return new("Asbestos", "Do not drill, sweep or move the suspected material. Work stops until an accredited inspector has said what it is. Loose vermiculite in attics is treated as if it held asbestos.",
                "ANSI/AARST SGM-SF-2017, 11.2.3; the advice on vermiculite is EPA's (from memory).");
        if (house.YearBuilt is null or < LeadPaintYear)
            yield return new("Lead paint", $"{(house.YearBuilt is { } year ? $"Built {year}, before 1978" : "The year is not known: take it as before 1978")}. Cutting or drilling painted parts may need a certified firm and lead-safe practice.",
                "ANSI/AARST SGM-SF-2017, 11.2.4; 40 CFR 745 (from memory).");
        if (house.Appliances.Where(a => a.Draft == Draft.Natural).Select(a => a.Name).ToList() is { Count: > 0 } natural)
            yield return new("Backdraft and carbon monoxide", $"Natural draft here: {string.Join(", ", natural)}. A suction fan can pull flue gas into the house. Check the draft with the system running and every exhaust fan on before leaving; do not leave a system running that backdrafts. Advise carbon monoxide alarms.",
                "ANSI/AARST SGM-SF-2017, 11.1.1.");
        if (house.Sump == SumpKind.Open)
            yield return new("Open sump", "Look for sewer gas and methane before leaning over it. A lid must leave the pump serviceable.", "Common practice, no source.");
        if (house.Areas.Any(a => a.Kind == FoundationKind.CrawlSpace))
            yield return new("Crawl space", "The air may be hazardous and the way out narrow: ventilate, protect your breathing, do not go in alone.", "ANSI/AARST SGM-SF-2017 (access label); 29 CFR 1926 Subpart AA (from memory).");
    }
}
