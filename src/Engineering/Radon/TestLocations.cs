namespace MitigationOffice.Engineering.Radon;

/// <summary>Sorts devices into places: collocated ones averaged, all others each on their own.</summary>
internal static class TestLocations
{
    public static IReadOnlyList<LocationResult> Of(IReadOnlyList<TestDevice> devices, PostMitigationRules rules) =>
        [.. Groups(devices)
            .SelectMany(group => AreCollocated(group, rules) ? [Average(group)] : group.Select(device => Average([device])))
            .OrderByDescending(location => location.Result)];

    public static IEnumerable<TestReason> SeparationNotes(IReadOnlyList<TestDevice> devices, PostMitigationRules rules) =>
        Groups(devices)
            .Where(group => group.Count > 1 && !AreCollocated(group, rules))
            .Select(group => new TestReason(ReasonKind.Notes,
                $"{group[0].Room}: the devices of group {group[0].CollocationGroup} are not known to stand within "
                + FormattableString.Invariant($"{rules.CollocatedWithinInches:0.#} in of each other, so they are reported one by one and not averaged."),
                RadonSources.Averages));

    private static List<List<TestDevice>> Groups(IReadOnlyList<TestDevice> devices) =>
        [.. devices
            .Select((device, index) => (device, key: device.CollocationGroup ?? $"\0{index}"))
            .GroupBy(pair => pair.key, pair => pair.device, StringComparer.Ordinal)
            .Select(group => group.ToList())];

    private static bool AreCollocated(List<TestDevice> group, PostMitigationRules rules)
    {
        var distances = group.Select(device => device.DistanceToGroupInches).OfType<decimal>().ToList();
        return distances.Count >= group.Count - 1 && distances.TrueForAll(distance => distance <= rules.CollocatedWithinInches);
    }

    private static LocationResult Average(List<TestDevice> devices)
    {
        var results = devices.ConvertAll(device => device.Result);
        var pair = devices.Count > 1 ? RadonStatistics.JudgeDuplicates(results.Min(), results.Max()) : null;
        return new(devices[0].Room, devices, RadonConcentration.Average(results), pair);
    }
}
