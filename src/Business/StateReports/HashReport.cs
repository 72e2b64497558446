using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>One hash of the report before it, of everything a report says and of its files.</summary>
public static class HashReport
{
    /// <param name="files">SHA-256 of its files in the order CSV, XLSX, PDF.</param>
    public static string Of(ReportRun run, IEnumerable<ReportEntry> entries, IEnumerable<string> files)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Add(run.PreviousHash, run.ProfileCode, Of(run.Number), Of(run.ProfileEdition), run.ProfileJson, run.Period, $"{run.PeriodKind}", Of(run.First), Of(run.Last), Of(run.DueOn), run.FrozenBy, run.SignedBy,
            run.FrozenAtUtc.ToString("yyyy-MM-ddTHH:mm:ss.ffffff", CultureInfo.InvariantCulture), run.HeadJson, Of(run.Counted), Of(run.Amendments), run.Fee.Cents.ToString(CultureInfo.InvariantCulture));
        foreach (var file in files) Add(file);
        foreach (var e in entries.OrderBy(e => e.Position)) Add(Of(e.Position), Of(e.InstalledSystemId), e.EventKey, e.CountsKey ?? "", $"{e.Kind}", Of(e.Day), e.Amends, e.Changed, e.RowJson);
        return Convert.ToHexStringLower(hash.GetHashAndReset());

        void Add(params ReadOnlySpan<string> parts)
        {
            foreach (var part in parts)
            {
                hash.AppendData(Encoding.UTF8.GetBytes(part));
                hash.AppendData([0x1f]);
            }
        }
    }

    private static string Of(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Of(DateOnly? day) => TypedNumbers.Plain(day);
}
