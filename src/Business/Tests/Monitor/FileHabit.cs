using System.Text.Json;
using System.Text.Json.Serialization;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>How the clock inside a monitor runs.</summary>
public enum DeviceClock
{
    /// <summary>Standard time all year: it is never set for daylight saving.</summary>
    StandardTime,

    /// <summary>Local clock time, set forward and back with daylight saving.</summary>
    LocalTime,

    /// <summary>Universal time (UTC).</summary>
    UniversalTime,
}

public enum RadonUnit
{
    PCiL,
    BqM3,
}

/// <summary>Whether the time of a row is the beginning or the end of its hour.</summary>
public enum RowTime
{
    BeginsTheHour,
    EndsTheHour,
}

public enum DayOrder
{
    MonthFirst,
    DayFirst,
    YearFirst,
}

/// <summary>How a monitor writes its files: its columns by their heads, its clock, its unit. Remembered with the device.</summary>
public sealed record FileHabit
{
    private static readonly JsonSerializerOptions Json = new() { Converters = { new JsonStringEnumConverter() } };

    public char Separator { get; init; } = ',';

    /// <summary>Heads of the columns; "#2" is the second column of a file without heads.</summary>
    public string TimeColumn { get; init; } = "";

    /// <summary>The clock time, where it stands apart from the day.</summary>
    public string ClockColumn { get; init; } = "";
    public string ValueColumn { get; init; } = "";
    public string SerialColumn { get; init; } = "";
    public DayOrder Order { get; init; } = DayOrder.MonthFirst;
    public DeviceClock Clock { get; init; } = DeviceClock.StandardTime;

    /// <summary>The zone its clock is set to, by its IANA name; empty is the house's own.</summary>
    public string Zone { get; init; } = "";
    public RadonUnit Unit { get; init; } = RadonUnit.PCiL;
    public RowTime RowTime { get; init; } = RowTime.BeginsTheHour;
    public int DropFirstHours { get; init; } = 4;
    public bool DeviceCorrectsStart { get; init; }

    public string Write() => JsonSerializer.Serialize(this, Json);

    public static FileHabit? Read(string json)
    {
        try
        {
            return json.Length == 0 ? null : JsonSerializer.Deserialize<FileHabit>(json, Json);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
