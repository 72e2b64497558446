using CsCheck;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents.Drawing;

namespace MitigationOffice.Business.Tests.Documents;

public sealed class HouseSectionTests
{
    private static readonly Gen<string> Words = Gen.OneOf("T1", "T2", "by furnace", "NE corner", "W", "stairs 3");

    private static readonly Gen<HoleMark> Hole =
        Gen.Select(Words, Gen.Double[-5, 400], Gen.Bool, Gen.Double[0.2, 20], (label, pa, read, m) => new HoleMark(label, read ? pa : null, m));

    private static readonly Gen<RouteStretch> Stretch =
        Gen.Select(Gen.Enum<RoutePlace>(), Gen.Double[0.1, 15], Gen.OneOf("4 in", "3 in", "2 in"), (place, m, size) => new RouteStretch(place, m, size));

    private static readonly Gen<BranchMark[]> Branches = Gen.Select(
        Gen.OneOf("B", "family room, by the stairs"), Stretch.Array[1, 3], Gen.Double[5, 900].Nullable(), (name, pipe, pa) => new BranchMark(name, pipe, "", pa)).Array[0, 5];

    private static readonly Gen<HouseFacts> Houses = Gen.Select(
        Gen.Select(Gen.Bool, Gen.Bool, Gen.Double[0, 5]),
        Stretch.Array[0, 6], Hole.Array[0, 12],
        Gen.Select(Gen.Enum<RoutePlace>().Nullable(), Gen.Double[0, 14].Nullable(), Gen.Double[5, 1000].Nullable(), Gen.Double[5, 1000].Nullable()),
        Gen.OneOf("", "fan Sparrow 18, 18 W", "fan with a name that is far too long to stand beside a wall anywhere, 151 W"),
        Gen.Select(Gen.OneOf("", "ice from 9 °F", "closes with ice on 11 days of a design winter"), Branches),
        (house, route, holes, numbers, fan, last) => new HouseFacts
        {
            Name = "3 Test Row", Basement = house.Item1, FootingDivides = house.Item2, Storeys = house.Item3, Route = route, Holes = holes,
            FanPlace = numbers.Item1, DischargeAboveGradeM = numbers.Item2, PitVacuumPa = numbers.Item3, StartUpPa = numbers.Item4, FanWords = fan, Warning = last.Item1, Branches = last.Item2,
        });

    [Fact]
    public void Every_further_pit_is_drawn_with_its_pipe_and_told_in_words()
    {
        var facts = new HouseFacts
        {
            Name = "3 Test Row", Basement = true, Route = [new(RoutePlace.Indoors, 5, "4 in"), new(RoutePlace.Outdoors, 5, "4 in")], Holes = [new("T1", 4), new("T2", 3)],
            Branches = [new("B", [new(RoutePlace.Indoors, 4, "3 in")], "", 160), new("C", [new(RoutePlace.Garage, 2, "2 in")], "B")],
        };
        var picture = HouseSection.Draw(facts);
        Assert.Equal(3, picture.Shapes.OfType<Ring>().Count(r => r.Of == "pipe"));
        Assert.Equal(3, picture.Shapes.OfType<Trace>().Count(t => t is { Of: "pipe", Stroke: Stroke.Pipe }));
        Assert.Contains($"A further pit, B: {Measures.Length.Show(4)} of 3 in pipe indoors, which joins the route; {Measures.GaugePressure.Show(160)} at the pit.", DescribeHouse.Of(facts), StringComparison.Ordinal);
        Assert.Contains($"A further pit, C: {Measures.Length.Show(2)} of 2 in pipe in the garage, which joins the pipe of B.", DescribeHouse.Of(facts), StringComparison.Ordinal);
        Assert.Contains("4 in and 3 in and 2 in pipe", string.Join('|', picture.Shapes.OfType<Label>().Select(l => l.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public void No_label_crosses_a_line_that_is_not_its_own() =>
        Gen.Select(Houses, Gen.Bool).Sample((facts, narrow) =>
        {
            var picture = HouseSection.Draw(facts, narrow);
            foreach (var label in picture.Shapes.OfType<Label>())
                foreach (var shape in picture.Shapes.Where(s => s.Of != label.Of))
                    Assert.False(Crosses(label, shape), $"“{label.Text}” of {label.Of} crosses {shape.Of}");
        }, iter: 400);

    [Fact]
    public void No_two_labels_overlap_and_none_leaves_the_paper() =>
        Gen.Select(Houses, Gen.Bool).Sample((facts, narrow) =>
        {
            var picture = HouseSection.Draw(facts, narrow);
            var labels = picture.Shapes.OfType<Label>().ToList();
            foreach (var label in labels)
            {
                Assert.True(label.Frame.Within(new Frame(0, 0, picture.Width, picture.Height)), $"“{label.Text}” leaves the paper");
                foreach (var other in labels.Where(o => !ReferenceEquals(o, label)))
                    Assert.False(label.Frame.Grown(-1).Meets(other.Frame.Grown(-1)), $"“{label.Text}” lies on “{other.Text}”");
            }
        }, iter: 400);

    [Fact]
    public void The_weakest_hole_the_fan_and_the_warning_are_always_said() =>
        Gen.Select(Houses, Gen.Bool).Sample((facts, narrow) =>
        {
            var said = string.Join(' ', HouseSection.Draw(facts, narrow).Shapes.OfType<Label>().Select(l => l.Text));
            if (facts.WayOut == WayOut.None) return;
            if (facts is { FanPlace: not null, FanWords.Length: > 0 }) Assert.Contains(facts.FanWords, said, StringComparison.Ordinal);
            if (facts.Warning.Length > 0) Assert.Contains(facts.Warning, said, StringComparison.Ordinal);
            if (facts.Weakest is { SuctionPa: { } pa } && facts.Holes.Count > 1)
                Assert.Contains("weakest " + Business.Data.Measures.Pressure.Show(pa), said, StringComparison.Ordinal);
        }, iter: 400);

    [Fact]
    public void The_section_is_told_in_words()
    {
        var words = HouseSection.Draw(Larch).Description;
        Assert.Contains("A basement under 2 storeys", words, StringComparison.Ordinal);
        Assert.Contains("10 ft of 4 in pipe indoors, then 16 ft of 4 in pipe outdoors", words, StringComparison.Ordinal);
        Assert.Contains("T1 186 Pa, T2 7.4 Pa, T3 4.2 Pa", words, StringComparison.Ordinal);
        Assert.Contains("The weakest is T3", words, StringComparison.Ordinal);
    }

    internal static readonly HouseFacts Larch = new()
    {
        Name = "3 Test Row", Basement = true, FootingDivides = true, Storeys = 2, FanPlace = RoutePlace.Outdoors, FanWords = "fan, 18 W",
        Route = [new(RoutePlace.Indoors, 10 * 0.3048, "4 in"), new(RoutePlace.Outdoors, 16 * 0.3048, "4 in")],
        DischargeAboveGradeM = 16 * 0.3048, PitVacuumPa = 224, Warning = "ice from 9 °F, 11 days",
        Holes = [new("T1", 186, 0.4), new("T2", 7.4, 5), new("T3", 4.2, 9)],
    };

    /// <summary>Independent of the placing code: samples each line closely, so that a mistake in one is not a mistake in the other.</summary>
    private static bool Crosses(Label label, Shape shape) => shape switch
    {
        Trace trace => Segments(trace).Any(s => Sampled(label.Frame.Grown(StrokeWidths.Of(trace.Stroke) / 2), s.Item1, s.Item2)),
        Strokes strokes => strokes.Lines.Any(s => Sampled(label.Frame, s.From, s.To)),
        Ring ring => Enumerable.Range(0, 72).Any(i => label.Frame.Contains(new Spot(
            ring.Centre.X + ring.Radius * Math.Cos(i * Math.PI / 36), ring.Centre.Y + ring.Radius * Math.Sin(i * Math.PI / 36)))),
        _ => false,
    };

    private static IEnumerable<(Spot, Spot)> Segments(Trace trace) =>
        trace.Corners.Zip(trace.Corners.Skip(1)).Concat(trace.Closed ? [(trace.Corners[^1], trace.Corners[0])] : []);

    private static bool Sampled(Frame frame, Spot from, Spot to)
    {
        var steps = (int)Math.Ceiling(Math.Max(Math.Abs(to.X - from.X), Math.Abs(to.Y - from.Y)) / 0.5) + 1;
        return Enumerable.Range(0, steps + 1).Any(i => frame.Contains(new Spot(
            from.X + (to.X - from.X) * i / steps, from.Y + (to.Y - from.Y) * i / steps)));
    }
}
