using MitigationOffice.Business.Service;

namespace MitigationOffice.Business.Tests.Service;

/// <summary>What a house owner is told first. The order of causes is common practice, no source.</summary>
public sealed class AdviseTests
{
    private static readonly DateOnly InJuly = new(2026, 7, 10), InJanuary = new(2026, 1, 10);

    public static TheoryData<Sign> Signs => [.. Enum.GetValues<Sign>()];

    private static Look Seen(Sign sign, double? gaugePa = null, DateOnly? day = null) => new(sign, day ?? InJuly) { StartPa = 250, GaugePa = gaugePa, HasAlarm = true, HasSump = true, HasHeatCable = true };

    [Theory]
    [InlineData(Sign.GaugeLevel, Cause.FanSwitchedOff)]
    [InlineData(Sign.GaugeLower, Cause.LeakInPipeOrSlab)]
    [InlineData(Sign.GaugeHigher, Cause.WaterInPipe)]
    [InlineData(Sign.AlarmBeepsNowAndThen, Cause.AlarmBattery)]
    [InlineData(Sign.AlarmSounds, Cause.FanSwitchedOff)]
    [InlineData(Sign.FanSilent, Cause.FanSwitchedOff)]
    [InlineData(Sign.FanLoud, Cause.FanBearing)]
    [InlineData(Sign.WaterHeard, Cause.WaterInPipe)]
    [InlineData(Sign.IceSeen, Cause.IceAtMouth)]
    [InlineData(Sign.PartBroken, Cause.LoosePart)]
    [InlineData(Sign.FumesOrCoAlarm, Cause.Backdraft)]
    [InlineData(Sign.RadonHighAgain, Cause.HouseChanged)]
    public void Each_sign_has_its_first_cause(Sign sign, Cause first) => Assert.Equal(first, Advise.On(Seen(sign)).Causes[0].Cause);

    [Fact]
    public void A_falling_gauge_in_the_cold_speaks_of_ice_and_in_summer_not()
    {
        Assert.Contains(Advise.On(Seen(Sign.JustReading, 120, InJanuary)).Causes, c => c.Cause == Cause.IceAtMouth);
        Assert.DoesNotContain(Advise.On(Seen(Sign.JustReading, 120)).Causes, c => c.Cause == Cause.IceAtMouth);
    }

    /// <summary>Fumes came back when it ran: no advice may end in switching it on.</summary>
    [Theory]
    [MemberData(nameof(Signs))]
    public void A_system_left_off_is_never_advised_to_be_switched_on(Sign sign)
    {
        foreach (var gauge in new double?[] { null, 0, 120, 250, 400 })
        {
            var advice = Advise.On(Seen(sign, gauge) with { LeftRunning = false });
            var cause = Assert.Single(advice.Causes, c => sign != Sign.FumesOrCoAlarm || c.Cause == Cause.Backdraft);
            Assert.Equal(Cause.Backdraft, cause.Cause);
            if (sign == Sign.FumesOrCoAlarm) Assert.StartsWith("Go outside now", advice.Headline, StringComparison.Ordinal);
            else if (gauge > 50) Assert.Contains("the gauge says that it draws", advice.Headline, StringComparison.Ordinal);
            else if (gauge is 0) Assert.EndsWith("Leave it off.", advice.Headline, StringComparison.Ordinal);
            if (sign != Sign.FumesOrCoAlarm) Assert.DoesNotContain("switch is on", cause.OwnerCheck, StringComparison.Ordinal);
        }
    }
}
