using System.Globalization;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>The page and the field where a value that is missing or doubtful is entered.</summary>
public static class GapPlace
{
    private static readonly Dictionary<string, string> Fields = new(StringComparer.Ordinal)
    {
        ["company"] = "Input_Name", ["company_certification"] = "Input_CompanyNumber", ["signed_by"] = "SignedBy",
        ["customer"] = "Input_Name", ["customer_phone"] = "Input_Phone",
        ["street"] = "Input_Street", ["city"] = "Input_City", ["county"] = "Input_County", ["state"] = "Input_State", ["zip"] = "Input_Zip", ["building_type"] = "Input_Building", ["foundation_type"] = "Input_AreasInWords",
        ["pre_test_pcil"] = EarlierTests, ["pre_test_method"] = EarlierTests, ["pre_test_start"] = EarlierTests, ["pre_test_end"] = EarlierTests, ["pre_test_tester"] = EarlierTests,
        ["fan_activation_date"] = "Input_FanOn_Day", ["completion_date"] = "Input_FanOn_Day", ["system_type"] = "Input_SystemType", ["suction_points"] = "Input_SuctionPoints", ["fan_location"] = "Input_FanPlace", ["fan_model"] = "Input_FanId",
        ["fan_serial"] = "Input_FanSerial", ["pipe_size"] = "Input_PipeSize", ["start_up_suction_inwc"] = "Input_StartUpGauge", ["start_up_suction_pa"] = "Input_StartUpGauge", ["tag"] = "Input_TagNumber", ["cost"] = "Input_Price",
        ["backdraft_check"] = "backdraft", ["notes"] = "Input_DifferencesFromDesign", ["person_certification"] = "Rows_0__Number", ["start_date"] = "job-day", ["job_number"] = "job-day",
        ["post_test_pcil"] = "Input_Devices_0__Result", ["post_test_method"] = "Input_Devices_0__Kind", ["post_test_start"] = "Input_Started_Day", ["post_test_end"] = "Input_Ended_Day", ["post_test_tester"] = "Input_MadeByNumber",
        ["post_test_window"] = "Input_Started_Day",
    };

    private const string EarlierTests = "Input_EarlierTestsInWords";

    public static string Of(ReportGap gap, string profileCode)
    {
        var (system, at, field) = (gap.System, ReportFields.Find(gap.Field)!.At, Fields.GetValueOrDefault(gap.Field, ""));
        if (gap.Field == "signed_by") return "#" + field;
        var page = at switch
        {
            EnteredAt.Company => "/shop/company",
            EnteredAt.Licences => "/shop/licences",
            EnteredAt.Report => $"/state-reports/profiles/{profileCode}",
            EnteredAt.Customer when system!.CustomerId is { } customer => $"/customers/{Number(customer)}",
            EnteredAt.Customer => $"/houses/{Number(system!.HouseId)}/hand-over",
            EnteredAt.Inquiry => $"/houses/{Number(system!.HouseId)}/inquiry",
            EnteredAt.AsBuilt when system!.JobId is { } job => $"/houses/{Number(system.HouseId)}/work/as-built?job={Number(job)}",
            EnteredAt.Proof => $"/houses/{Number(system!.HouseId)}/proof/test{(system.TestId is { } test ? $"?test={Number(test)}" : "")}",
            _ => $"/houses/{Number(system!.HouseId)}/work{(system.JobId is { } planned ? $"?job={Number(planned)}" : "#as-built")}",
        };
        return field.Length == 0 || page.Contains('#', StringComparison.Ordinal) ? page : $"{page}#{field}";
    }

    private static string Number(int id) => id.ToString(CultureInfo.InvariantCulture);
}
