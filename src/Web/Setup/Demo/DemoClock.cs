namespace MitigationOffice.Web.Setup.Demo;

/// <summary>A clock that the loader sets back, so that the office's acts date themselves.</summary>
public sealed class DemoClock(DateTimeOffset at) : TimeProvider
{
    public DateTimeOffset At { get; set; } = at;

    public DateTime Utc => At.UtcDateTime;

    public override DateTimeOffset GetUtcNow() => At;
}
