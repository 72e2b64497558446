using System.Globalization;
using MitigationOffice.Business.Tests.Monitor;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>How a file is to be read, as it is chosen on the page and carried in its address.</summary>
public sealed class HabitForm
{
    public static readonly (string Value, string Words)[] Clocks =
    [
        (nameof(DeviceClock.StandardTime), "standard time all year"), (nameof(DeviceClock.LocalTime), "local time with daylight saving"), (nameof(DeviceClock.UniversalTime), "universal time (UTC)"),
    ];

    public static readonly (string Value, string Words)[] Units = [(nameof(RadonUnit.PCiL), "pCi/L"), (nameof(RadonUnit.BqM3), "Bq/m³")];
    public static readonly (string Value, string Words)[] RowTimes = [(nameof(Business.Tests.Monitor.RowTime.BeginsTheHour), "the beginning of its hour"), (nameof(Business.Tests.Monitor.RowTime.EndsTheHour), "the end of its hour")];
    public static readonly (string Value, string Words)[] Orders = [(nameof(DayOrder.MonthFirst), "month, day, year"), (nameof(DayOrder.DayFirst), "day, month, year"), (nameof(DayOrder.YearFirst), "year, month, day")];
    public static readonly (string Value, string Words)[] GapCauses = [(nameof(GapCause.NotSaid), "Choose"), (nameof(GapCause.DeviceRecordedNothing), "the device recorded nothing (power, fault, moved)"), (nameof(GapCause.TakenOut), "somebody took hours out")];

    public string? TimeColumn { get; set; }
    public string? ClockColumn { get; set; }
    public string? ValueColumn { get; set; }
    public string? SerialColumn { get; set; }
    public string? Order { get; set; }
    public string? Clock { get; set; }
    public string? Zone { get; set; }
    public string? Unit { get; set; }
    public string? RowTime { get; set; }
    public string? DropFirstHours { get; set; }
    public bool DeviceCorrectsStart { get; set; }
    public string? Gaps { get; set; }

    /// <summary>True when the address says how to read the file.</summary>
    public bool IsChosen => TimeColumn is not null || ValueColumn is not null || Clock is not null;

    public GapCause GapsSaid => Enum.TryParse<GapCause>(Gaps, out var said) ? said : GapCause.NotSaid;

    public static HabitForm Of(FileHabit h) => new()
    {
        TimeColumn = h.TimeColumn, ClockColumn = h.ClockColumn, ValueColumn = h.ValueColumn, SerialColumn = h.SerialColumn, Order = h.Order.ToString(), Clock = h.Clock.ToString(), Zone = h.Zone,
        Unit = h.Unit.ToString(), RowTime = h.RowTime.ToString(), DropFirstHours = h.DropFirstHours.ToString(CultureInfo.InvariantCulture), DeviceCorrectsStart = h.DeviceCorrectsStart,
    };

    public FileHabit Habit(char separator) => new()
    {
        Separator = separator, TimeColumn = TimeColumn ?? "", ClockColumn = ClockColumn ?? "", ValueColumn = ValueColumn ?? "", SerialColumn = SerialColumn ?? "",
        Order = Enum.TryParse<DayOrder>(Order, out var order) ? order : DayOrder.MonthFirst, Clock = Enum.TryParse<DeviceClock>(Clock, out var clock) ? clock : DeviceClock.StandardTime, Zone = Zone ?? "",
        Unit = Enum.TryParse<RadonUnit>(Unit, out var unit) ? unit : RadonUnit.PCiL, RowTime = Enum.TryParse<RowTime>(RowTime, out var marks) ? marks : Business.Tests.Monitor.RowTime.BeginsTheHour,
        DropFirstHours = int.TryParse(DropFirstHours, NumberStyles.None, CultureInfo.InvariantCulture, out var drop) ? Math.Clamp(drop, 0, 72) : 4, DeviceCorrectsStart = DeviceCorrectsStart,
    };

    /// <summary>The choices as they stand in an address or in hidden fields.</summary>
    public IEnumerable<(string Name, string Value)> Carried() =>
    [
        ("Input.TimeColumn", TimeColumn ?? ""), ("Input.ClockColumn", ClockColumn ?? ""), ("Input.ValueColumn", ValueColumn ?? ""), ("Input.SerialColumn", SerialColumn ?? ""), ("Input.Order", Order ?? ""),
        ("Input.Clock", Clock ?? ""), ("Input.Zone", Zone ?? ""), ("Input.Unit", Unit ?? ""), ("Input.RowTime", RowTime ?? ""), ("Input.DropFirstHours", DropFirstHours ?? ""),
        ("Input.DeviceCorrectsStart", DeviceCorrectsStart ? "true" : "false"),
    ];
}
