using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Drawing;
using PdfSharp.Drawing;

namespace MitigationOffice.Business.Systems;

/// <summary>The owner's page: what stands in the house, how to see that it works, what to do when it does not, what it costs.</summary>
public static class PacketPaper
{
    private const double DrawingHeight = 230;

    public static byte[] Make(SystemPaper s) => Paper.Make(
        new PaperHead($"Your radon system, {s.House}", s.Company, s.MadeAtUtc) { TextSize = 9, Boxes = Boxes(s) },
        paper =>
        {
            paper.Title("Your radon system");
            paper.Text($"{s.House} · tag {s.TagNumber} · switched on {HouseTime.Show(s.CompletedOn)}", soft: true);
            if (s.Section is { } section) Draw(paper, HouseSection.Draw(section));
            if (!s.LeftRunning) paper.Caution("This system is switched off", "It pulled fumes back into the house in the backdraft check. Leave it off until we have been back.");
            paper.Heading("What was put in");
            paper.Facts(PutIn(s), 108);
            paper.Heading("Is it working?");
            paper.Text($"Look at the gauge once a month: colored fluid in a U-shaped tube. Read how far apart the two columns stand, at eye level. At the start they stood {s.StartUpReading} apart. Within about a fifth of that: all is well.");
            paper.Caution("No difference, or clearly more or less, or the alarm sounds",
                $"See that the fan's switch and breaker are on, and in frost whether the pipe's mouth outdoors is iced over (look from the ground only). Then call {Call(s)}. Do not open the pipe, the fan or the wiring; do not climb.");
            paper.Bullets(Lights(s));
            paper.Heading("Looking after it");
            paper.Bullets(Care(s));
            paper.Heading("Radon results");
            if (s.Results.Count == 0) paper.Text("The test after the work is still to come; its result follows by letter.");
            else paper.Bullets(s.Results);
            if (s.Contract.Length > 0)
            {
                paper.Heading("Contract");
                paper.Text(s.Contract);
            }

            if (s.OwnPage.Length > 0)
            {
                paper.Heading("Your system's own page");
                paper.CodeBeside(s.OwnPage, "Scan: your system's own page", 72,
                    ["Scan the code, or type the address. Write today's gauge reading there and see what it means; ask for service there. The page knows your system and not your name.", s.OwnPage]);
            }

            paper.Photos("Photos of the work", s.Photos);
            paper.Text($"Questions: {s.Company}, {Call(s)}{(s.CertificationNumber.Length == 0 ? "" : $", certification no. {s.CertificationNumber}")}. Radon program: {s.Program}.", small: true);
        });

    private static List<TitleBox> Boxes(SystemPaper s) =>
    [
        new("House", s.House, 2), new("For", s.For, 1.4), new("Paper", "Your radon system", 1.2), new("Date", HouseTime.Show(s.CompletedOn), 1),
    ];

    private static void Draw(Paper paper, Picture picture) =>
        paper.Drawing(picture.Description, DrawingHeight, (g, at) => SectionDrawing.DrawOn(g, at, picture, PaperFonts.Make(PaperFace.Regular, 9).FontFamily.Name));

    private static IEnumerable<(string, string)> PutIn(SystemPaper s)
    {
        yield return ("System", $"{s.SystemType}, {(s.SuctionPoints == 1 ? "1 suction point" : $"{s.SuctionPoints} suction points")}, pipe {s.PipeSize}");
        yield return ("Fan", string.Join(", ", new[] { s.Fan, s.Line("serial", s.FanSerial), s.FanPlace, s.FanWarrantyUntil is { } until ? $"maker's warranty until {HouseTime.Show(until)}" : "" }.Where(w => w.Length > 0)));
        yield return ("Gauge", $"{s.Gauge}; start-up reading {s.StartUpReading}");
        yield return ("Alarm", s.Alarm.Length == 0 ? "none fitted" : $"{s.Alarm}{(s.AlarmBatteryOn is { } battery ? $", battery of {HouseTime.Show(battery)}" : "")}");
        if (s.Besides.Count > 0) yield return ("Also fitted", string.Join("; ", s.Besides));
        if (s.Readings.Count > 0) yield return ("Suction under the slab", string.Join(" · ", s.Readings.Select(r => $"{Hole(r.HoleLabel)} {Measures.Pressure.Show(r.SuctionPa)}{(r.FanOffPa is { } off ? $" (fan off {Measures.Pressure.Number(off)})" : "")}")));
        if (s.ReadWith.Length > 0) yield return ("Measured with", s.ReadWith);
        if (s.DraftChecks.Count > 0) yield return ("Backdraft check", string.Join(" · ", s.DraftChecks));
        if (s.Wiring.Length > 0) yield return ("Wiring", s.Wiring);
        if (s.SecondBranch.Length > 0) yield return ("Left ready", s.SecondBranch);
        if (s.TakenOverParts.Length > 0) yield return ("Used again", s.TakenOverParts);
        if (s.Ice.Length > 0) yield return ("Ice outdoors", s.Ice);
        if (s.DifferencesFromDesign.Length > 0) yield return ("Not as drawn", s.DifferencesFromDesign);
        if (s.CostPerYear is { } cost)
            yield return ("Electricity a year", $"{cost} ({SystemPaper.Number(s.Watts!.Value)} W measured, {SystemPaper.HoursAYear:#,##0} h, {TypedNumbers.Plain(s.ElectricityCentsPerKWh)} ¢/kWh)");
    }

    private static IEnumerable<string> Lights(SystemPaper s)
    {
        yield return "Columns level: the fan has stopped, its current is off, or ice has shut the pipe. Columns closer than at the start, in frost: ice in the pipe. Further apart than at the start: water in the pipe or wet soil.";
        if (s.Alarm.Length > 0) yield return $"{s.Alarm}: sounding all the time means no suction. A short beep every few minutes means its battery is low{(s.AlarmBatteryOn is { } on ? $"; the one in it is of {HouseTime.Show(on)}" : "")}.";
    }

    private static IEnumerable<string> Care(SystemPaper s)
    {
        yield return s.LeftRunning ? "Leave the fan running all year. Without it the radon comes back within hours." : "Once we have switched it on again, leave the fan running all year. Without it the radon comes back within hours.";
        if (s.Alarm.Length > 0 && s.AlarmBatteryOn is not null) yield return $"Put a new battery into the alarm every {s.AlarmBatteryMonths} months.";
        yield return $"Test the house for radon at least every {s.TestEvery}, and after building work or before a sale.";
        yield return s.Backdraft == BackdraftCheck.NothingToCheck
            ? "Call us before you put in a heater, boiler or fireplace that draws by a chimney: the fan could pull its fumes, carbon monoxide among them, into the rooms."
            : "Call us before you change a heater, boiler, fireplace or exhaust fan, and keep a carbon monoxide alarm: a suction fan can pull fumes into the rooms.";
        yield return "Wiring is for a licensed electrician. Pump or sump work: put the sealed lid back on.";
    }

    /// <summary>"Hole 1:", so that a hole called by a number is not read as part of its reading.</summary>
    private static string Hole(string label) => label.All(char.IsAsciiDigit) ? $"hole {label}:" : $"{label}:";

    private static string Call(SystemPaper s) => s.Phone.Length > 0 ? s.Phone : s.Email;
}
