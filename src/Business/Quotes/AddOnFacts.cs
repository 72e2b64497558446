using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>What is known of a house and its design, under the names that the rules of the price book use. What nobody knows is left out.</summary>
public static class AddOnFacts
{
    private const double PoundsPerKg = 2.20462262;

    public static IReadOnlyDictionary<string, object> Of(PriceItem item, QuoteBasis basis)
    {
        var facts = new Dictionary<string, object>(StringComparer.OrdinalIgnoreCase) { ["from_tier"] = (decimal)item.FromTier, ["computed"] = basis.Report is not null };
        if (item.RecommendedFrom is { } limit) facts["limit"] = limit;
        PutHouse(facts, basis.House);
        PutRoute(facts, item, basis);
        PutFreeze(facts, basis);
        PutFan(facts, basis);
        return facts;
    }

    private static void PutHouse(Dictionary<string, object> facts, House house)
    {
        (facts["sump_open"], facts["sump_sealed"]) = (house.Sump == SumpKind.Open, house.Sump == SumpKind.Sealed);
        facts["sump_on_plan"] = house.SumpXM is not null;
        facts["appliances_listed"] = house.Appliances.Count > 0;
        (facts["under_trees"], facts["animals"], facts["vermiculite"]) = (house.UnderTrees, house.AnimalsTrouble, house.VermiculiteSuspected);
        var basement = house.Areas.Exists(a => a.Kind == FoundationKind.Basement);
        (facts["basement"], facts["crawl_space"]) = (basement, house.Areas.Exists(a => a.Kind == FoundationKind.CrawlSpace));
        Put(facts, "floors", house.StoreysAboveGrade + (basement ? 1 : 0));
        if (house.EarlierTests.Count > 0) facts["level_before_pcil"] = house.EarlierTests.Max(t => t.PCiL);
        Put(facts, "chimney_appliances", string.Join(", ", house.Appliances.Where(a => a.Draft == Draft.Natural).Select(a => a.Name)));
    }

    private static void PutRoute(Dictionary<string, object> facts, PriceItem item, QuoteBasis basis)
    {
        var route = basis.TakeOff;
        var several = route.SuctionPoints > 1;
        facts["suction_points"] = (decimal)route.SuctionPoints;
        if (several) facts["several_points"] = (decimal)route.SuctionPoints;
        if (!route.IsByHand) (facts["outdoor_ft"], facts["pipe_ft"]) = (route.OutdoorFeet, route.PipeFeet);
        facts["has_this_pipe"] = route.Pipes.Any(p => p.Size == item.PipeSize);
        if (!several) Put(facts, "footings", string.Join(", ", basis.House.Areas.Where(a => a.FootingDivides).Select(a => a.Name)));
    }

    private static void PutFreeze(Dictionary<string, object> facts, QuoteBasis basis)
    {
        Put(facts, "why_no_forecast", basis.Report?.WhyNoFreeze);
        if (basis.Freeze is not { } freeze) return;
        Put(facts, "days_at_risk", freeze.DaysAtRisk);
        Put(facts, "days_at_risk_high", freeze.DaysAtRiskHigh);
        Put(facts, "days_until_shut", freeze.DaysUntilShut);
        Put(facts, "cable_w_per_ft", freeze.CableWPerFt);
        Put(facts, "insulation_r", freeze.InsulationR);
        Put(facts, "condensate_lb", freeze.CondensateKgPerDay * PoundsPerKg);
        facts["bypass_needed"] = freeze.BypassNeeded;
        Put(facts, "forecast", freeze.Conclusion);
        Put(facts, "bypass_reason", freeze.BypassReason);
    }

    private static void PutFan(Dictionary<string, object> facts, QuoteBasis basis)
    {
        if (basis.Running is not { } running) return;
        Put(facts, "fan_model", running.Model);
        Put(facts, "fan_watts", running.Watts);
        if (running.FanPressurePa > 0) Put(facts, "pipe_share_percent", (running.FanPressurePa - running.PitVacuumPa) / running.FanPressurePa * 100);
        if (running.SpeedWords is { } speed) facts["pipe_speed"] = speed.StartsWith("too", StringComparison.Ordinal) ? $"is {speed}" : speed;
        if (running.WeakestHole is not { } hole) return;
        Put(facts, "weakest_hole", hole);
        Put(facts, "weakest_pa", running.WeakestWinterPa);
        Put(facts, "weakest_low_pa", running.WeakestWinterLowPa);
        Put(facts, "target_pa", basis.Report!.TargetPa);
    }

    private static void Put(Dictionary<string, object> facts, string name, double? value)
    {
        if (value is { } number && Math.Abs(number) < 1e12) facts[name] = (decimal)number;
    }

    private static void Put(Dictionary<string, object> facts, string name, string? words)
    {
        if (words is { Length: > 0 }) facts[name] = words;
    }
}
