using System.Globalization;

namespace MitigationOffice.Engineering.Radon;

/// <summary>Checks the devices of a post-mitigation test one by one.</summary>
internal static class DeviceChecks
{
    public static IEnumerable<TestReason> Check(PostMitigationTest test, PostMitigationRules rules) =>
        test.Devices.SelectMany(device => Check(device, test, rules));

    private static IEnumerable<TestReason> Check(TestDevice device, PostMitigationTest test, PostMitigationRules rules)
    {
        if (device.HoursCutFromInside > 0)
            yield return new(ReasonKind.Invalidates,
                $"{device.Name}: {device.HoursCutFromInside} h were taken out of the inside of the record.", RadonSources.HourlyData);
        if (Calibration(device, test, rules) is { } reason)
            yield return reason;
        foreach (var hourly in device.Hourly?.Reasons ?? [])
            yield return hourly with { Sentence = $"{device.Name}: {hourly.Sentence}" };
        if (device is { IsContinuousMonitor: true, Hourly: null })
            yield return new(ReasonKind.Notes, $"{device.Name}: its hourly data are not on record; they belong to the report or are given on request.", RadonSources.HourlyData);
        if (device.Result.IsNearDeviceLimit)
            yield return new(ReasonKind.Notes, $"{device.Name}: {device.Result.Display()}.", RadonLevels.EpaSource);
    }

    private static TestReason? Calibration(TestDevice device, PostMitigationTest test, PostMitigationRules rules)
    {
        if (device.CalibratedOn is not { } calibrated)
            return device.IsContinuousMonitor
                ? new(ReasonKind.Invalidates, $"{device.Name}: the calibration date of a continuous monitor must be on the report and is missing.", RadonSources.CalibrationReported)
                : null;
        var started = DateOnly.FromDateTime(test.Start.DateTime);
        if (calibrated > started)
            return Outside(device, $"was calibrated on {Day(calibrated)}, after the test started");
        if (started > device.CalibrationDueOn)
            return Outside(device, $"was due for calibration by {Day(device.CalibrationDueOn.Value)}, before the test started");
        return started > calibrated.AddMonths(rules.CalibrationGoodForMonths)
            ? Outside(device, $"was last calibrated on {Day(calibrated)}, more than {rules.CalibrationGoodForMonths} months before the test")
            : null;
    }

    private static TestReason Outside(TestDevice device, string what) =>
        new(ReasonKind.Invalidates, $"{device.Name} {what}.", RadonSources.CalibrationInterval);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
