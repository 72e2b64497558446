namespace MitigationOffice.Business.Work;

/// <summary>One step of an installation as it is laid out for every house it fits.</summary>
/// <param name="Code">Its name for the company's own texts; never changes.</param>
public sealed record WorkStep(string Code, string Words, string Caution = "", string Source = "")
{
    public Func<WorkFacts, bool> When { get; init; } = _ => true;
}

/// <summary>What of a house and its design decides the steps.</summary>
public sealed record WorkFacts(
    SystemKind Kind, int? YearBuilt, bool VermiculiteSuspected, bool HasSump, bool HasCrawlSpace, bool HasSlab, bool BurnsWithNaturalDraft,
    bool PipeOutdoorsOrInAttic, IReadOnlyList<string> Sold)
{
    /// <summary>Names of the suction points beside the first.</summary>
    public IReadOnlyList<string> FurtherPits { get; init; } = [];
}

/// <summary>The steps of an installation in the order of the day, each with the caution that belongs beside it. Our own words;
/// the sources say where the rule stands and which were not read but remembered.</summary>
public static class WorkSteps
{
    public const string ComesFirst =
        "Local code, the rules of the licensing state and the manufacturers' instructions come before anything written here.";

    private const int LeadPaintBannedIn = 1978;

    /// <param name="texts">The company's own texts for this kind of system, by the step's code.</param>
    public static IEnumerable<WorkStep> For(WorkFacts facts, IReadOnlyCollection<StepText>? texts = null)
    {
        foreach (var step in InOwnWords(BeforeFitting.Concat(Drawing).Concat(Further(facts)).Concat(Piping), facts, texts)) yield return step;
        foreach (var own in (texts ?? []).Where(t => t.Code.StartsWith(OwnCode, StringComparison.Ordinal)).OrderBy(t => t.Code, StringComparer.Ordinal)) yield return new(own.Code, own.Words, own.Caution, own.Source);
        foreach (var sold in facts.Sold) yield return new("sold", $"Fit what was sold besides: {sold}.");
        foreach (var step in InOwnWords(Starting, facts, texts)) yield return step;
    }

    /// <summary>Code of the company's own steps, numbered.</summary>
    public const string OwnCode = "own-";

    /// <summary>Every step there is, for any house.</summary>
    public static IEnumerable<WorkStep> All => BeforeFitting.Concat(Drawing).Concat(Piping).Concat(Starting);

    private static IEnumerable<WorkStep> InOwnWords(IEnumerable<WorkStep> steps, WorkFacts facts, IReadOnlyCollection<StepText>? texts)
    {
        foreach (var step in steps.Where(s => s.When(facts)))
        {
            var own = texts?.FirstOrDefault(t => t.Code == step.Code);
            if (own is null) yield return step;
            else if (!own.LeftOut) yield return step with { Words = own.Words, Caution = own.Caution, Source = own.Source };
        }
    }

    private static IEnumerable<WorkStep> Further(WorkFacts facts)
    {
        if (facts.FurtherPits.Count == 0 || facts.Kind != SystemKind.SubSlabSuction) yield break;
        yield return new("further-pits", $"Core and hollow out the further suction points too: {string.Join(", ", facts.FurtherPits)}.",
            "The same silica dust and the same protection at every hole; locate wires, water and tensioned cables at each of them anew.", "29 CFR 1926.1153; the controls are from memory");
    }

    private static readonly WorkStep[] BeforeFitting =
    [
        new("route", "Walk the route with the owner: suction points, pipe, fan, discharge, gauge."),
        new("air", "Air out the rooms you work in, and keep a fan blowing outdoors.",
            "Soil gas comes up where the slab is opened. Radon at work counts: note the hours and the level for each person.",
            "32 Ill. Adm. Code 422.70(e): 4 working level months in 12 months"),
        new("asbestos", "Look for asbestos where you will cut, drill or move anything: floor tile, mastic, pipe wrap, siding.",
            "If a material is suspect, do not disturb it. Stop until an accredited inspector has looked.",
            "ANSI/AARST SGM-SF 2017, 11.2.3; 29 CFR 1926.1101 and 40 CFR 763 (from memory)"),
        new("vermiculite", "Look at the attic insulation from the hatch before anyone goes in.",
            "Vermiculite was noted for this house. Treat it as asbestos: do not touch it, do not drill the ceiling under it, and route the pipe elsewhere until an accredited inspector has cleared it.",
            "ANSI/AARST SGM-SF 2017, 11.2.3; EPA advice on vermiculite (from memory)") { When = f => f.VermiculiteSuspected },
        new("lead", "Settle how painted surfaces are cut and cleaned.",
            "Paint from before 1978 may hold lead. A certified renovator and lead-safe work may be required: plastic down, no dry sanding, clean with a HEPA vacuum.",
            "ANSI/AARST SGM-SF 2017, 11.2.4; 40 CFR 745 (from memory)") { When = f => f.YearBuilt is null or < LeadPaintBannedIn },
        new("under-slab", "Find what lies in and under the slab before drilling: wires, water, heating tubes, drains, tensioned cables.",
            "A cut cable in a tensioned slab can kill. Where the locator is not sure, do not core.",
            "common practice, no source") { When = f => f.HasSlab },
    ];

    private static readonly WorkStep[] Drawing =
    [
        new("core", "Core the suction hole and drill the test holes.",
            "Concrete dust holds silica: at most 50 µg/m³ over a shift. Feed water to the core bit; on a hammer drill use a shroud with a dust collector; clean the holes with a HEPA vacuum, never with a dry broom. Plug wet tools into a ground-fault outlet and hold the drill by its side handle.",
            "29 CFR 1926.1153; the controls are from memory") { When = f => f.Kind == SystemKind.SubSlabSuction },
        new("pit", "Hollow out the pit under the suction hole and note how many gallons came out.", "Lift in small loads.", "common practice, no source")
        {
            When = f => f.Kind == SystemKind.SubSlabSuction,
        },
        new("sump", "Fit the sealed sump lid; check that the pump can still be reached, and that it starts.",
            "Switch the pump off at the breaker before reaching in. Sewer gas and methane can gather in a pit: air it first, no flame, no smoking. Put the warning label on the lid.",
            "ANSI/AARST RMS-LB 2018, 6.1.2.3 (label); the rest is common practice, no source") { When = f => f.HasSump || f.Kind == SystemKind.SumpOrDrainTileSuction },
        new("membrane", "Lay and seal the membrane; fix it to the wall; put the access label up.",
            "A crawl space can be a confined space: test and move the air, never alone, somebody outside, light and mask with you. Look for bare wires, nails, animals and standing water first. Use sealants only with air moving.",
            "ANSI/AARST SGM-SF 2017 (12/20), page 38 (label); 29 CFR 1926 Subpart AA (from memory)") { When = f => f.HasCrawlSpace || f.Kind == SystemKind.SubMembraneSuction },
        new("seal", "Seal cracks, joints and openings that leak.",
            "Open the windows and follow the maker's sheet. Sealants that say “outdoor use only” stay outdoors. Leave the owner a note of what was used.",
            "ANSI/AARST SGM-SF 2017, 4.3.3 and 4.3.4"),
    ];

    private static readonly WorkStep[] Piping =
    [
        new("pipe", "Run the pipe: falling to the suction point by 1/8 in per ft or more, held every 6 ft level and every 8 ft upright, no low spot that holds water.",
            "Primer and cement give off vapour that burns and stuns. Move the air, no flame or spark near it, gloves and goggles on.",
            "ANSI/AARST SGM-SF 2017, 6.2.2 and 4.3.3; supports: EPA 402-R-93-078, 14.2.3 (from memory)"),
        new("roof", "Carry the pipe up outdoors or through the roof to its mouth, and set the fan upright.",
            "Tie off at 6 ft and above. Ladder on firm ground, one out for four up, 3 ft over the edge. Not on ice, not in wind, not near the service drop.",
            "29 CFR 1926.501 and 1926.1053 (from memory)") { When = f => f.PipeOutdoorsOrInAttic },
        new("wiring", "Have the fan wired with a switch in sight, and its breaker labelled.",
            "Wiring is work for a licensed electrician under the local electrical code. Lock the breaker out while hands are in the box. No wire runs inside the vent pipe.",
            "EPA 402-R-93-078, 14.6 and 16.5 (from memory)"),
        new("gauge", "Fit the gauge and the alarm where the owner passes by."),
    ];

    private static readonly WorkStep[] Starting =
    [
        new("start", "Switch on. Read the gauge, the watts and the suction at every test hole; mark the start-up value on the gauge."),
        new("backdraft", "Make the backdraft check with every fan and dryer of the house running and the doors as they would be in winter.",
            "This house has an appliance that draws by its chimney alone. A suction fan can pull its fumes, carbon monoxide among them, into the rooms. If it spills, switch the system off and leave it off until the cause is mended and the check repeated. A carbon monoxide alarm belongs in the house.",
            "EPA 402-R-93-078, 17 (from memory); ANSI/AARST SGM-SF 2017, 11.1.1") { When = f => f.BurnsWithNaturalDraft },
        new("look-for-flues", "Look once more for fireplaces, water heaters and boilers that draw by a chimney. If there is one, make the backdraft check before you leave.",
            "A suction fan can pull fumes, carbon monoxide among them, back into the rooms. A system that does so is not left running.",
            "EPA 402-R-93-078, 17 (from memory); ANSI/AARST SGM-SF 2017, 11.1.1") { When = f => !f.BurnsWithNaturalDraft },
        new("clean", "Close and seal the test holes, clean up, take the dust and the spoil away.", "No dry sweeping of concrete dust.", "29 CFR 1926.1153"),
        new("label", "Put the label and the tag on the pipe beside the gauge; label the pipe on every floor where it shows.", "", "ANSI/AARST SGM-SF 2017 (12/20), 8.4.2.1"),
        new("show", "Show the owner the gauge, the alarm and the switch; hand over the packet; agree when the test devices go out."),
    ];
}
