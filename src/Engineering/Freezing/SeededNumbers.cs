namespace MitigationOffice.Engineering.Freezing;

/// <summary>
/// A small reproducible source of random numbers: the same seed always gives the same numbers, on any machine.
/// SplitMix64 (Steele, Lea and Flood 2014), from memory.
/// </summary>
internal sealed class SeededNumbers(ulong seed)
{
    private ulong state = seed;

    public double NextShare()
    {
        state += 0x9E3779B97F4A7C15UL;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }

    public double Between(double low, double high) => low + (high - low) * NextShare();

    public double NextNormal()
    {
        var radius = Math.Sqrt(-2 * Math.Log(1 - NextShare()));
        return radius * Math.Cos(2 * Math.PI * NextShare());
    }
}
