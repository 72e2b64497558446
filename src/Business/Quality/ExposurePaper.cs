using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Quality;

/// <summary>A worker's own sheet of radon exposure, to be handed to them.</summary>
public sealed record ExposureSheet(string Worker, string Company, DateOnly Today, DateTime MadeAtUtc, IReadOnlyList<ExposureDay> Days)
{
    public IReadOnlyList<ExposureEntry> Entries => [.. Days.Where(d => d.StruckOut.Length == 0).Select(Entry)];
    public ExposureYear Year => WorkerExposure.TwelveMonthsTo(Entries, Today);

    public static ExposureEntry Entry(ExposureDay day) => new(day.Day, RadonConcentration.FromPciPerL(day.PCiL), day.Hours, day.EquilibriumRatio ?? WorkerExposure.AssumedEquilibriumRatio);
}

public static class ExposurePaper
{
    public static byte[] Make(ExposureSheet sheet) => Paper.Make(
        new PaperHead($"Radon exposure, {sheet.Worker}", sheet.Company, sheet.MadeAtUtc) { Boxes = [new("Worker", sheet.Worker, 2), new("Company", sheet.Company, 1.6), new("Paper", "Radon exposure", 1.1), new("Date", HouseTime.Show(sheet.Today), 1)] },
        paper =>
        {
            paper.Title("Radon exposure at work");
            paper.Text($"{sheet.Worker}, {sheet.Company}", soft: true);
            paper.Text($"In the twelve months to {HouseTime.Show(sheet.Today)}: {Wlm(sheet.Year.WorkingLevelMonths)} working level months. The limit is {Wlm(sheet.Year.LimitWorkingLevelMonths)} in twelve months ({sheet.Year.Source}).");
            paper.Heading("Day by day");
            paper.Table([new("Day", 1.1), new("Where", 2.2), new("pCi/L", 0.8, Right: true), new("Hours", 0.7, Right: true), new("Ratio", 0.7, Right: true), new("WLM", 0.9, Right: true)],
                sheet.Days.OrderByDescending(d => d.Day).Select(d => new PaperRow(
                    HouseTime.Show(d.Day), d.StruckOut.Length > 0 ? $"{d.Where} (struck out: {d.StruckOut})" : d.Where, TypedNumbers.Plain(d.PCiL), TypedNumbers.Plain(d.Hours), TypedNumbers.Plain(d.EquilibriumRatio ?? WorkerExposure.AssumedEquilibriumRatio),
                    d.StruckOut.Length > 0 ? "–" : Wlm(ExposureSheet.Entry(d).WorkingLevelMonths))));
            paper.Text($"Working levels are pCi/L × equilibrium ratio ÷ 100; working level months are working levels × hours ÷ 170. A ratio of 0.5 stands where none was measured. Kept for {ExposureDay.YearsKept} years (EPA 402-R-93-078, section 18, from memory). Your state’s rule comes first.", small: true);
        });

    public static string Wlm(decimal value) => Math.Round(value, 4, MidpointRounding.AwayFromZero).ToString("0.000#", CultureInfo.InvariantCulture);
}
