namespace MitigationOffice.Engineering.Freezing;

/// <summary>Flow and gauge reading tabled over the open share, so that a season asks neither fan nor soil.</summary>
internal sealed class ClosingMouth
{
    private const int Steps = 96;
    private readonly double[] flow = new double[Steps + 1];
    private readonly double[]? gauge;

    public ClosingMouth(SuctionSystem? system, double openFlowM3PerS, double boreM)
    {
        if (system is not null) gauge = new double[Steps + 1];
        for (var step = 0; step <= Steps; step++)
        {
            flow[step] = system?.FlowM3PerS((double)step / Steps, openFlowM3PerS, boreM) ?? openFlowM3PerS;
            if (gauge is not null) gauge[step] = system!.GaugePa(flow[step], openFlowM3PerS);
        }
    }

    public double FlowM3PerS(double openShare) => openShare <= RunMarch.ShutOpenShare + 1e-9 ? 0 : Read(flow, openShare);

    public double? GaugePa(double openShare) =>
        gauge is null ? null : openShare <= RunMarch.ShutOpenShare + 1e-9 ? 0 : Read(gauge, openShare);

    private static double Read(double[] table, double openShare)
    {
        var place = openShare * Steps;
        var cell = Math.Min((int)place, Steps - 1);
        return table[cell] + (place - cell) * (table[cell + 1] - table[cell]);
    }
}
