using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Fits the layer under the slab to the readings on the floor plan, and draws what the design makes of it.</summary>
public static class FitSlab
{
    public static CoverageResult? Of(DesignFile file, SoilResult soil, FanResult? shown, double winterLossPa)
    {
        if (file.FloorPlan is not { } plan) return null;
        try
        {
            return Result(file, plan, Input(file, plan, soil), shown, winterLossPa);
        }
        catch (ArgumentException e)
        {
            throw new DesignRefused(e.Message.Split(" (Parameter", 2)[0], e) { Path = "floorPlan" };
        }
    }

    private static CoverageResult Result(DesignFile file, FileFloorPlan plan, CoverageInput input, FanResult? shown, double winterLossPa)
    {
        var slab = SlabCoverage.Compute(input);
        var designed = Designed(file, input, slab, shown);
        return new CoverageResult
        {
            ReachM = slab.ReachM, ReachLowM = Known(slab.ReachLowM), ReachHighM = Known(slab.ReachHighM), FootingM = slab.FootingM, FootingFitted = slab.FootingFitted,
            TypicalMissFactor = slab.TypicalMissFactor, ConductanceM3PerSPa = slab.ConductanceM3PerSPa, LeakinessM3PerSPaM2 = slab.LeakinessM3PerSPaM2,
            AsTested = Map(slab.Map, plan), WithShownFan = designed is null ? null : Map(designed, plan), WithShownFanWinterShare = designed is null ? null : ShareWith(designed, designed.TargetPa + winterLossPa),
            WhatIf = plan.WhatIf is { } more ? Map(slab.WhatIf(Pit(more, more.Name ?? "what-if point", First(input).PitVacuumPa)), plan) : null,
            Proposal = plan.Propose is { } wish ? Proposal(slab, wish, First(input), plan) : null,
            Holes = [.. slab.Holes.Select(h => new HoleMiss(h.Reading.Name, h.Reading.VacuumPa, h.ComputedPa, h.Used))],
            Weaknesses = slab.Weaknesses, Assumptions = slab.Assumptions, Sources = slab.Sources,
        };
    }

    private static CoverageInput Input(DesignFile file, FileFloorPlan plan, SoilResult soil)
    {
        var setting = SettingOf(file, plan);
        var only = plan.SuctionPoints.Count == 1;
        var input = new CoverageInput
        {
            Plan = Plan(plan),
            SuctionPoints = [.. plan.SuctionPoints.Select((p, i) => PitThatRan(p, i, only ? soil.Settings[setting] : null))],
            Readings = [.. plan.Holes.Select((h, i) => new HoleReading { Name = h.Label, At = At(h.At), VacuumPa = h.VacuumPa ?? Reading(file, h, i, only ? setting : null) })],
            TargetPa = plan.TargetPa ?? file.TargetPa,
        };
        return input with
        {
            ResolutionPa = plan.ResolutionPa ?? input.ResolutionPa,
            AssumedReachM = plan.AssumedReachM ?? input.AssumedReachM,
            AssumedFootingM = plan.AssumedFootingM ?? input.AssumedFootingM,
        };
    }

    private static SlabPlan Plan(FileFloorPlan plan)
    {
        var slab = new SlabPlan
        {
            Areas = [.. plan.Areas.Select(a => new SlabArea { Name = a.Name, Corners = [.. a.Corners.Select(At)] })],
            Footings = [.. plan.Footings.Select(f => new FootingLine { From = At(f.From), To = At(f.To) })],
        };
        return slab with { GridM = plan.GridM ?? slab.GridM };
    }

    private static int SettingOf(DesignFile file, FileFloorPlan plan)
    {
        var settings = file.Test.Settings.ToList();
        if (plan.Setting is not { } wanted) return settings.IndexOf(settings.MaxBy(s => s.PitVacuumPa)!);
        return wanted <= settings.Count ? wanted - 1 : throw new DesignRefused($"floorPlan.setting is {wanted}; the test has {settings.Count}.");
    }

    private static SuctionPlace PitThatRan(FilePit pit, int index, SettingResult? setting)
    {
        var name = pit.Name ?? $"suction point {index + 1}";
        var place = Pit(pit, name, pit.PitVacuumPa ?? setting?.PitVacuumPa ?? throw new DesignRefused($"floorPlan.suctionPoints[{index}].pitVacuumPa is missing; where several points ran at once each needs its own."));
        return place with { FlowM3PerS = pit.FlowM3PerS ?? setting?.FlowM3PerS };
    }

    private static SuctionPlace Pit(FilePit pit, string name, double vacuumPa)
    {
        var place = new SuctionPlace { Name = name, At = At(pit.At), PitVacuumPa = pit.PitVacuumPa ?? vacuumPa, FlowM3PerS = pit.FlowM3PerS };
        return place with { PitRadiusM = pit.PitRadiusM ?? place.PitRadiusM };
    }

    private static double Reading(DesignFile file, FilePlacedHole hole, int index, int? setting)
    {
        if (setting is not { } at) throw new DesignRefused($"floorPlan.holes[{index}].vacuumPa is missing; where several points ran at once it cannot be taken from the test.");
        var read = file.Test.Holes.FirstOrDefault(h => h.Label == hole.Label) ?? throw new DesignRefused($"floorPlan.holes[{index}] has no vacuumPa, and the test has no hole “{hole.Label}” to take it from.");
        var on = read.FanOnPa[at] ?? throw new DesignRefused($"floorPlan.holes[{index}] has no vacuumPa, and hole “{hole.Label}” was not read at setting {at + 1}.");
        return (read.FanOffPa ?? 0) - on;
    }

    /// <summary>The fitted layer with every suction point of the design at the shown fan's suction.</summary>
    private static CoverageMap? Designed(DesignFile file, CoverageInput input, SlabCoverage slab, FanResult? shown)
    {
        var further = file.FurtherPoints ?? [];
        if (shown is not { OnCurve: true } || further.Any(p => p.At is null) || slab.ReachM is < 0.5 or > 50 || slab.FootingM is < 0.01 or > 100) return null;
        var first = First(input) with { PitVacuumPa = shown.PitVacuumPa, FlowM3PerS = null };
        var rest = further.Select((p, i) => Pit(new FilePit { At = p.At!, PitRadiusM = p.PitRadiusM }, p.Name, shown.Points[i + 1].PitVacuumPa));
        return SlabCoverage.Compute(input with { SuctionPoints = [first, .. rest], Readings = [], AssumedReachM = slab.ReachM, AssumedFootingM = slab.FootingM }).Map;
    }

    private static ProposalResult? Proposal(SlabCoverage slab, FileProposal wish, SuctionPlace first, FileFloorPlan plan)
    {
        var best = slab.BestSecondPoint(wish.PitVacuumPa ?? first.PitVacuumPa, wish.PitRadiusM ?? new SuctionPlace { At = default, PitVacuumPa = 1 }.PitRadiusM);
        return best is null ? null : new ProposalResult(best.Place.At.XM, best.Place.At.YM, best.PlacesTried, Map(best.Map, plan));
    }

    private static MapResult Map(CoverageMap map, FileFloorPlan plan) => new()
    {
        Sentence = map.Sentence, TargetPa = map.TargetPa, ShareBeyondTarget = map.ShareBeyondTarget, WeakestSpot = Cell(map.WeakestSpot), BalanceError = map.BalanceError,
        SuctionPoints = [.. map.Suction.Select(s => new PitResult(s.Place.Name, s.Place.At.XM, s.Place.At.YM, s.Place.PitVacuumPa, s.FlowM3PerS))],
        Cells = plan.WithCells ? [.. map.Cells.Select(Cell)] : null,
    };

    private static double ShareWith(CoverageMap map, double targetPa) => map.Cells.Where(c => c.VacuumPa >= targetPa).Sum(c => c.AreaM2) / map.Cells.Sum(c => c.AreaM2);

    private static CellResult Cell(MapCell cell) => new(cell.Centre.XM, cell.Centre.YM, cell.VacuumPa, cell.AreaM2);

    private static SuctionPlace First(CoverageInput input) => input.SuctionPoints[0];

    private static PlanPoint At(FilePlace place) => new(place.XM, place.YM);

    private static double? Known(double value) => double.IsFinite(value) ? value : null;
}
