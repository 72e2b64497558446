using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>An instrument as it is typed, with its calibrations.</summary>
public sealed class InstrumentForm
{
    public sealed class Row
    {
        public int Id { get; set; }
        public string? DoneOn { get; set; }
        public string? DueOn { get; set; }
        public string? DoneBy { get; set; }
        public string? Certificate { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(DoneOn + DueOn + DoneBy + Certificate);
    }

    public string? Kind { get; set; } = nameof(InstrumentKind.ContinuousMonitor);
    public string? Serial { get; set; }
    public string? Model { get; set; }
    public string? KeptBy { get; set; }
    public string? UseBy { get; set; }
    public bool Retired { get; set; }
    public string? Notes { get; set; }
    public List<Row> Rows { get; set; } = [];

    public static InstrumentForm Of(Instrument i) => new()
    {
        Kind = i.Kind.ToString(), Serial = i.Serial, Model = i.Model, KeptBy = i.KeptBy, UseBy = TypedNumbers.Plain(i.UseBy), Retired = i.Retired, Notes = i.Notes,
        Rows = [.. i.Calibrations.OrderByDescending(c => c.DoneOn).Select(c => new Row { Id = c.Id, DoneOn = TypedNumbers.Plain(c.DoneOn), DueOn = TypedNumbers.Plain(c.DueOn), DoneBy = c.DoneBy, Certificate = c.Certificate })],
    };

    public void OfferRows()
    {
        while (Rows.Count(r => r.IsEmpty) < 2) Rows.Add(new Row());
    }

    public void Write(Instrument instrument, FormReading read, DateOnly today)
    {
        instrument.Kind = Enum.TryParse<InstrumentKind>(Kind, out var kind) ? kind : InstrumentKind.Other;
        instrument.Serial = read.Text(Serial, nameof(Serial), "serial number or batch number", needed: true, most: 60);
        instrument.SerialKey = Instrument.KeyOf(instrument.Serial);
        if (instrument.Serial.Length > 0 && instrument.SerialKey.Length == 0) read.Refuse(nameof(Serial), "A serial number holds at least one letter or digit.");
        instrument.Model = read.Text(Model, nameof(Model), "model", most: 80);
        instrument.KeptBy = read.Text(KeptBy, nameof(KeptBy), "name of who keeps it", most: 120);
        instrument.UseBy = read.Day(UseBy, nameof(UseBy), "last day to use it");
        instrument.Retired = Retired;
        instrument.Notes = read.Text(Notes, nameof(Notes), "notes", most: 2000);
        for (var i = 0; i < Rows.Count; i++) Write(instrument, Rows[i], read, i, today);
    }

    private static void Write(Instrument instrument, Row row, FormReading read, int i, DateOnly today)
    {
        var known = instrument.Calibrations.Find(c => c.Id == row.Id && row.Id > 0);
        if (row.IsEmpty)
        {
            if (known is not null) instrument.Calibrations.Remove(known);
            return;
        }

        var done = read.Day(row.DoneOn, $"Rows[{i}].DoneOn", "day of the calibration", needed: true);
        var due = read.Day(row.DueOn, $"Rows[{i}].DueOn", "day the next one is due");
        if (done > today) read.Refuse($"Rows[{i}].DoneOn", "A calibration cannot have been done in the time to come.");
        if (due <= done) read.Refuse($"Rows[{i}].DueOn", "The next calibration is due after this one.");
        if (instrument.Kind == InstrumentKind.ContinuousMonitor && done is { } day) due ??= day.AddMonths(Calibration.UsualMonths);
        if (known is null) instrument.Calibrations.Add(known = new Calibration());
        (known.DoneOn, known.DueOn) = (done ?? known.DoneOn, due);
        known.DoneBy = read.Text(row.DoneBy, $"Rows[{i}].DoneBy", "name of who calibrated it", most: 120);
        known.Certificate = read.Text(row.Certificate, $"Rows[{i}].Certificate", "certificate", most: 120);
    }
}
