using System.Globalization;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Engineering.Tests.Radon;

internal static class RadonNumbers
{
    public static decimal D(string number) => decimal.Parse(number, CultureInfo.InvariantCulture);

    public static RadonConcentration PciPerL(string pciPerL) => RadonConcentration.FromPciPerL(D(pciPerL));

    public static DateOnly Day(string day) => DateOnly.ParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static DateTimeOffset At(string instant) =>
        DateTimeOffset.ParseExact(instant + " -05:00", "yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture);
}
