namespace MitigationOffice.Business.Tests;

/// <summary>Where a device stands and where it does not, shown beside the devices. Our own words.</summary>
public static class PlacingRules
{
    public const string Source = "25 Pa. Code 240.310(a)(1) and (2)";

    public static readonly IReadOnlyList<string> Stands =
    [
        "3 ft or more from outside doors, windows and air ducts, out of any draught",
        "20 in to 6 ft above the floor, 1 ft or more below the ceiling and off an outside wall",
        "4 in or more from other things, 4 ft or more from heat",
        "7 ft or more from a sump pit",
        "in the lowest level that is lived in or could be, in each part that touches the soil; where the test before the work stood, if that can be",
    ];

    public static readonly IReadOnlyList<string> DoesNotStand =
    [
        "in a bathroom, kitchen, or anywhere steamy; within 10 ft of a washer or dryer",
        "in a closet or cupboard, a crawl space or a nook of the foundation",
    ];

    public const string Honesty = "Windows and doors stay shut for the whole of a short test. Nobody takes hours out of a monitor's record.";
}
