using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Pages.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>A kit, or several of one kind, as they are typed.</summary>
public sealed class KitForm
{
    /// <summary>Days after which a short-term kit should be back; common practice, no source.</summary>
    public const int UsualDays = 10;

    public string? Kind { get; set; } = nameof(DeviceKind.Charcoal);
    public string? Serials { get; set; }
    public string? Batch { get; set; }
    public string? OutOn { get; set; }
    public string? HandedTo { get; set; }
    public bool IndependentTester { get; set; }
    public string? TesterNumber { get; set; }
    public string? BackBy { get; set; }
    public string? AskedOn { get; set; }
    public string? SentToLabOn { get; set; }
    public string? Lab { get; set; }
    public string? LostOn { get; set; }
    public string? Notes { get; set; }
    public string? Result { get; set; }
    public ClockFields Ended { get; set; } = new();

    public static KitForm Of(TestKit k, decimal? result, DateTime? endedUtc, TimeZoneInfo zone) => new()
    {
        Kind = k.Kind.ToString(), Serials = k.Serial, Batch = k.BatchId?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "", OutOn = TypedNumbers.Plain(k.OutOn), HandedTo = k.HandedTo, IndependentTester = k.IndependentTester, TesterNumber = k.TesterNumber,
        BackBy = TypedNumbers.Plain(k.BackBy), AskedOn = TypedNumbers.Plain(k.AskedOn), SentToLabOn = TypedNumbers.Plain(k.SentToLabOn), Lab = k.Lab, LostOn = TypedNumbers.Plain(k.LostOn), Notes = k.Notes,
        Result = TypedNumbers.Plain(result), Ended = ClockFields.Of(endedUtc, zone),
    };

    /// <summary>The serial numbers, a line or a comma between.</summary>
    public IReadOnlyList<string> SerialList(FormReading read)
    {
        var typed = (Serials ?? "").Split(['\n', '\r', ',', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).ToList();
        if (typed.Count == 0) read.Refuse(nameof(Serials), "Write the serial number that stands on the kit, one a line.");
        if (typed.Count > 60) read.Refuse(nameof(Serials), "More than sixty kits for one house: write fewer at a time.");
        if (typed.Find(s => s.Length > 60 || Instrument.KeyOf(s).Length == 0) is { } bad) read.Refuse(nameof(Serials), $"“{(bad.Length > 20 ? bad[..20] + "…" : bad)}” is no serial number: at most 60 letters, with a letter or digit among them.");
        if (typed.GroupBy(Instrument.KeyOf).FirstOrDefault(g => g.Count() > 1) is { } twice) read.Refuse(nameof(Serials), $"{twice.First()} stands twice.");
        return typed;
    }

    public void Write(TestKit kit, FormReading read, DateOnly today)
    {
        kit.Kind = Enum.TryParse<DeviceKind>(Kind, out var kind) ? kind : DeviceKind.Charcoal;
        kit.BatchId = int.TryParse(Batch, System.Globalization.CultureInfo.InvariantCulture, out var batch) ? batch : null;
        kit.OutOn = read.Day(OutOn, nameof(OutOn), "day it went out", needed: true) ?? today;
        if (kit.OutOn > today) read.Refuse(nameof(OutOn), "The kit cannot have gone out in the time to come.");
        kit.HandedTo = read.Text(HandedTo, nameof(HandedTo), "name of who has it", needed: true, most: 120);
        kit.IndependentTester = IndependentTester;
        kit.TesterNumber = read.Text(TesterNumber, nameof(TesterNumber), "certification number", most: 60);
        kit.BackBy = read.Day(BackBy, nameof(BackBy), "day it should be back") ?? kit.OutOn.AddDays(UsualDays);
        if (kit.BackBy < kit.OutOn) read.Refuse(nameof(BackBy), "It cannot be back before it went out.");
        kit.AskedOn = Past(read, AskedOn, nameof(AskedOn), "day somebody asked for it", kit.OutOn, today);
        kit.SentToLabOn = Past(read, SentToLabOn, nameof(SentToLabOn), "day it went to the laboratory", kit.OutOn, today);
        kit.LostOn = Past(read, LostOn, nameof(LostOn), "day it was given up as lost", kit.OutOn, today);
        kit.Lab = read.Text(Lab, nameof(Lab), "laboratory", most: 120);
        kit.Notes = read.Text(Notes, nameof(Notes), "notes", most: 2000);
    }

    private static DateOnly? Past(FormReading read, string? typed, string field, string name, DateOnly from, DateOnly today)
    {
        var day = read.Day(typed, field, name);
        if (day > today) read.Refuse(field, $"The {name} is still to come. Write it when it has happened.");
        if (day < from) read.Refuse(field, $"The {name} lies before the kit went out.");
        return day;
    }
}
