namespace MitigationOffice.Business.Service;

/// <summary>Causes and signs in plain words. Our own words; what to check is common practice, no source, unless it says one.</summary>
public static class CauseWords
{
    public static string Of(Cause cause) => cause switch
    {
        Cause.NothingWrong => "Nothing wrong",
        Cause.FanSwitchedOff => "The fan has no current",
        Cause.FanFailed => "The fan has failed",
        Cause.FanWeak => "The fan has grown weak",
        Cause.FanBearing => "A worn fan bearing or a loose mount",
        Cause.IceAtMouth => "Ice in the outdoor pipe or at its mouth",
        Cause.HeatCableFailed => "The heat cable is off or broken",
        Cause.WaterInPipe => "Water standing in the pipe",
        Cause.SoilWetOrBlocked => "Wet or blocked soil under the slab",
        Cause.LeakInPipeOrSlab => "Air leaks in: a loose joint, an open lid, a new crack",
        Cause.MouthBlocked => "Something in the pipe's mouth: a nest, leaves",
        Cause.GaugeFault => "The gauge itself: its tube slipped off, or fluid was lost",
        Cause.AlarmBattery => "The alarm's battery is low",
        Cause.AlarmFault => "The alarm itself",
        Cause.LoosePart => "A loose or broken part",
        Cause.Backdraft => "Fumes drawn back into the house",
        Cause.HouseChanged => "The house was changed: new heater, new opening, rebuilt floor",
        _ => "Something else",
    };

    public static string Of(Sign sign) => sign switch
    {
        Sign.JustReading => "I read the gauge",
        Sign.GaugeLevel => "Both sides of the gauge are level",
        Sign.GaugeLower => "The gauge shows less than at the start",
        Sign.GaugeHigher => "The gauge shows more than at the start",
        Sign.AlarmBeepsNowAndThen => "The alarm beeps every few minutes",
        Sign.AlarmSounds => "The alarm sounds all the time",
        Sign.FanSilent => "The fan is silent",
        Sign.FanLoud => "The fan is louder than before",
        Sign.WaterHeard => "Water gurgles or drips in the pipe",
        Sign.IceSeen => "There is ice on the pipe or its mouth",
        Sign.PartBroken => "Something is loose or broken",
        Sign.FumesOrCoAlarm => "Smell of fumes, or the carbon monoxide alarm sounds",
        Sign.RadonHighAgain => "A radon test came out high",
        _ => "Something else",
    };

    public static readonly IReadOnlyList<(string Value, string Words)> Signs = [.. Enum.GetValues<Sign>().Select(s => (s.ToString(), Of(s)))];

    public static readonly IReadOnlyList<(string Value, string Words)> Causes = [.. Enum.GetValues<Cause>().Select(c => (c.ToString(), Of(c)))];

    public static string OwnerCheck(Cause cause) => cause switch
    {
        Cause.FanSwitchedOff => "Look whether the fan's switch is on and its breaker in the panel has not tripped; a tripped ground-fault outlet has a button to reset. Switch a tripped breaker on once; if it trips again, leave it off.",
        Cause.FanFailed or Cause.FanWeak => "Stand by the pipe and listen: a running fan hums.",
        Cause.IceAtMouth => "Look at the pipe's mouth from the ground: white rims or icicles mean ice. It mostly thaws by itself; note the day.",
        Cause.HeatCableFailed => "Look whether the heat cable's plug is in and its outlet has current.",
        Cause.WaterInPipe => "Listen at the pipe for gurgling.",
        Cause.SoilWetOrBlocked => "See whether the sump pump runs and the floor is dry.",
        Cause.LeakInPipeOrSlab => "See whether the sump lid lies tight and no pipe joint you can see has come apart. Listen for hissing.",
        Cause.MouthBlocked => "Look at the pipe's mouth from the ground.",
        Cause.GaugeFault => "See whether the thin tube sits on the gauge and the pipe, and whether colored fluid stands in both sides.",
        Cause.AlarmBattery => "Put a new battery of the same kind into the alarm and write the day on it.",
        Cause.AlarmFault => "Read the gauge: if it stands as at the start, the system works and only the alarm is at fault.",
        Cause.FanBearing => "Listen whether it grinds or only hums.",
        Cause.HouseChanged => "Think back: a new heater, fan, window or floor since the last test?",
        _ => "",
    };

    public static string FirstCheck(Cause cause) => cause switch
    {
        Cause.FanSwitchedOff => "Voltage at the disconnect, breaker and ground-fault device; why it tripped before it is set again.",
        Cause.FanFailed => "With current present and the breaker locked out: does the wheel turn freely, does the motor draw watts.",
        Cause.FanWeak => "Watts against the start-up value, pressure across the fan, its age.",
        Cause.FanBearing => "Play and sound of the wheel, the soft couplings, the mount on the wall.",
        Cause.IceAtMouth => "Mouth and elbows outdoors for ice, slope back to the slab, insulation; gauge before and after thawing.",
        Cause.HeatCableFailed => "Thermostat, current drawn and continuity of the cable; then the ice.",
        Cause.WaterInPipe => "Low spots and slope of the pipe, the condensate bypass, water level at the suction pit.",
        Cause.SoilWetOrBlocked => "Sump level and pump, drain tile, the pit through its hole; suction at the nearest test hole.",
        Cause.LeakInPipeOrSlab => "Sump lid, floor openings, pipe joints before the fan, with smoke; suction at every test hole.",
        Cause.MouthBlocked => "Mouth and screen, from a safe stand.",
        Cause.GaugeFault => "Tube on both ends, fluid level, zero with the tube off.",
        Cause.AlarmBattery => "New battery, test button, date on the alarm.",
        Cause.AlarmFault => "Its tube or sensor, its set point against the gauge.",
        Cause.LoosePart => "The part, what held it, what it touches.",
        Cause.Backdraft => "Spillage at every appliance that draws by a chimney, all fans running (EPA 402-R-93-078, 17, from memory; ANSI/AARST SGM-SF 2017, 11.1.1).",
        Cause.HouseChanged => "What was changed; then suction at every test hole against the start-up values.",
        _ => "",
    };

    public static string Caution(Cause cause) => cause switch
    {
        Cause.FanSwitchedOff or Cause.FanFailed or Cause.FanWeak or Cause.HeatCableFailed => "Wiring is for a licensed electrician: lock the breaker out before a box is opened. Do not open the fan.",
        Cause.IceAtMouth or Cause.MouthBlocked => "Do not climb on ice and do not knock at the pipe: falling ice and falling people hurt. Keep away from under icicles.",
        Cause.WaterInPipe or Cause.SoilWetOrBlocked => "Electricity and water: do not reach into a sump while its pump has current.",
        Cause.Backdraft => "Carbon monoxide kills without a smell. Out of the house, call the emergency number from outside; the system stays off until the check is passed.",
        Cause.LeakInPipeOrSlab => "Do not glue or seal anything in a closed room: solvent and sealant fumes burn and stun.",
        _ => "",
    };
}
