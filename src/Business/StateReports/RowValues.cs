using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Business.Systems;

namespace MitigationOffice.Business.StateReports;

/// <summary>Puts what is on record under the names of a report: days as 2026-10-31, numbers with a point.</summary>
internal static class RowValues
{
    private static readonly Dictionary<Enum, string> Known = [];

    public static void PutHouse(ReportValues values, SystemRow s, IReadOnlyList<FoundationKind> areas)
    {
        values["street"] = s.Street2.Length == 0 ? s.Street : $"{s.Street}, {s.Street2}";
        (values["city"], values["county"], values["state"], values["zip"]) = (s.City, s.County, s.State, s.Zip);
        values["building_type"] = Plain(s.Building);
        values["foundation_type"] = string.Join("; ", areas.Select(a => Plain(a)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
    }

    public static void PutOwner(ReportValues values, OwnerRow? owner) => (values["customer"], values["customer_phone"]) = (owner?.Name ?? "", owner?.Phone ?? "");

    public static void PutSystem(ReportValues values, SystemRow s, DateOnly on, FanRow? fan)
    {
        values["job_number"] = s.JobNumber ?? "";
        values["start_date"] = TypedNumbers.Plain(s.JobDay);
        values["fan_activation_date"] = TypedNumbers.Plain(on);
        values["completion_date"] = TypedNumbers.Plain(s.CompletedOn);
        (values["system_type"], values["fan_location"], values["pipe_size"], values["tag"]) = (s.Type, s.FanPlace, s.Pipe, s.Tag);
        values["suction_points"] = s.Points > 0 ? s.Points.ToString(CultureInfo.InvariantCulture) : "";
        (values["fan_model"], values["fan_serial"]) = (fan?.Model ?? "", fan?.Serial ?? "");
        if (s.GaugePa is { } pa)
        {
            values["start_up_suction_inwc"] = Digits((decimal)Measures.GaugePressure.In(pa, "inWC"), 2);
            values["start_up_suction_pa"] = Digits((decimal)pa, 0);
        }

        values["cost"] = s.Cents > 0 ? new Money(s.Cents).Dollars.ToString("0.00", CultureInfo.InvariantCulture) : "";
        values["backdraft_check"] = s.Backdraft == BackdraftCheck.NotDone ? "" : Plain(s.Backdraft);
        values["notes"] = s.Notes;
    }

    public static void PutBefore(ReportValues values, BeforeRow? before)
    {
        if (before is null) return;
        values["pre_test_pcil"] = Digits(before.PCiL, 1);
        (values["pre_test_method"], values["pre_test_tester"]) = (before.Device, before.MadeBy);
        (values["pre_test_start"], values["pre_test_end"]) = (TypedNumbers.Plain(before.StartedOn), TypedNumbers.Plain(before.EndedOn));
    }

    public static void PutAfter(ReportValues values, TestRow after, DateTime activatedAtUtc, TimeZoneInfo zone)
    {
        values["post_test_pcil"] = after.PCiL is { } level ? Digits(level, 1) : "";
        values["post_test_method"] = string.Join("; ", after.Devices.Select(d => Plain(d)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
        values["post_test_start"] = TypedNumbers.Plain(HouseTime.DayOf(after.StartedAtUtc, zone));
        values["post_test_end"] = TypedNumbers.Plain(HouseTime.DayOf(after.EndedAtUtc, zone));
        values["post_test_tester"] = after.MadeByNumber.Length > 0 ? after.MadeByNumber : after.MadeBy;
        values["post_test_window"] = after.StartedAtUtc < activatedAtUtc.AddHours(24) ? "under 24 h" : after.StartedAtUtc > activatedAtUtc.AddDays(30) ? "over 30 d" : "";
    }

    private static string Digits(decimal value, int digits) => Math.Round(value, digits, MidpointRounding.AwayFromZero).ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string Plain(Enum value)
    {
        lock (Known)
        {
            if (Known.TryGetValue(value, out var words)) return words;
            return Known[value] = string.Concat(value.ToString().Select((c, i) => i > 0 && char.IsUpper(c) ? " " + char.ToLowerInvariant(c) : c.ToString()));
        }
    }
}
