namespace MitigationOffice.Engineering.Freezing;

/// <summary>What the air in a cell gives: heat in W per kelvin, vapour in kg/s per unit of humidity ratio.</summary>
internal readonly record struct CellExchange(double HeatWPerK, double VapourKgPerS);

/// <summary>The air on its way: temperature, vapour, fog, and fog just caught by the wall (kg/s).</summary>
internal readonly record struct Stream(double AirC, double Ratio, double Fog, double CaughtKgPerS)
{
    public Stream After(CellExchange exchange, CellWall wall, StreamEntry entry, double caughtShare)
    {
        var ratio = Ratio - wall.VapourKgPerS / entry.DryKgPerS;
        var given = exchange.HeatWPerK * (AirC - wall.SurfaceC);
        var cooled = AirC - given / (entry.DryKgPerS * StreamEntry.HeatCapacity(ratio, Fog));
        var (celsius, vapour, fog) = StreamEntry.Settle(cooled, ratio, Fog, entry.PressurePa);
        var caught = Math.Max(0, fog - Fog) * caughtShare;
        return new Stream(celsius, vapour, fog - caught, caught * entry.DryKgPerS);
    }
}

/// <summary>Heat and water at the wall of one cell, in balance.</summary>
internal readonly record struct CellWall(
    double SurfaceC, double VapourKgPerS, double DrainKgPerS, double FrostKgPerS, double MeltKgPerS, double HeatOutW)
{
    public static CellWall Solve(
        CellExchange exchange, Stream stream, double pressurePa, double resistance, double outsideC, double cableW, bool iced)
    {
        var at = new Balance(exchange, stream, pressurePa, resistance, outsideC, cableW);
        var (low, high) = at.Bracket();
        if (low >= 0 && !iced) return at.Wet(at.Root(low, high, 0));
        if (high <= 0) return at.Frosted(at.Root(low, high, AirTable.FusionJPerKg), 1);
        var spare = at.Net(0, 0);
        if (spare > 0) return iced ? at.Melting(spare) : at.Wet(at.Root(0, high, 0));
        var freezing = at.WaterKgPerS(0) * AirTable.FusionJPerKg;
        if (spare + freezing >= 0) return at.Frosted(0, freezing > 0 ? -spare / freezing : 0);
        return at.Frosted(at.Root(Math.Min(low, 0), 0, AirTable.FusionJPerKg), 1);
    }

    private readonly record struct Balance(
        CellExchange Exchange, Stream Stream, double PressurePa, double Resistance, double OutsideC, double CableW)
    {
        // Vapour only ever warms the surface, and only below the air's temperature: the dry answer or the air bounds it.
        public (double Low, double High) Bracket()
        {
            var dry = (Exchange.HeatWPerK * Stream.AirC + OutsideC / Resistance + CableW) / (Exchange.HeatWPerK + 1 / Resistance);
            return (Math.Min(OutsideC, Stream.AirC), Math.Max(Math.Max(OutsideC, Stream.AirC), dry));
        }

        public double VapourKgPerS(double surfaceC) =>
            Exchange.VapourKgPerS * Math.Max(0, Stream.Ratio - AirTable.SaturatedRatio(surfaceC, PressurePa));

        public double WaterKgPerS(double surfaceC) => VapourKgPerS(surfaceC) + Stream.CaughtKgPerS;

        // Heat that reaches the surface less heat that leaves it; fusion is the latent heat of what freezes on arrival.
        public double Net(double surfaceC, double fusionJPerKg) =>
            Exchange.HeatWPerK * (Stream.AirC - surfaceC) + Latent(surfaceC, fusionJPerKg) + CableW - (surfaceC - OutsideC) / Resistance;

        private double Latent(double surfaceC, double fusionJPerKg)
        {
            var arrived = surfaceC < 0 || fusionJPerKg > 0
                ? AirTable.IceJPerKgK * surfaceC - fusionJPerKg
                : AirTable.WaterJPerKgK * surfaceC;
            return VapourKgPerS(surfaceC) * (AirTable.VapourJPerKg(Stream.AirC) - arrived)
                + Stream.CaughtKgPerS * (AirTable.WaterJPerKgK * Stream.AirC - arrived);
        }

        // Net falls steadily with the surface temperature, so a secant kept inside a closing bracket always lands.
        public double Root(double low, double high, double fusionJPerKg)
        {
            var (netLow, netHigh) = (Net(low, fusionJPerKg), Net(high, fusionJPerKg));
            if (netLow <= 0) return low;
            if (netHigh >= 0) return high;
            var side = 0;
            var guess = low;
            for (var turn = 0; turn < 60; turn++)
            {
                guess = low + (high - low) * netLow / (netLow - netHigh);
                var net = Net(guess, fusionJPerKg);
                if (Math.Abs(net) < 1e-7) break;
                if (net > 0)
                {
                    (low, netLow) = (guess, net);
                    if (side > 0) netHigh /= 2;
                    side = 1;
                }
                else
                {
                    (high, netHigh) = (guess, net);
                    if (side < 0) netLow /= 2;
                    side = -1;
                }
            }
            return guess;
        }

        public CellWall Wet(double surfaceC) =>
            new(surfaceC, VapourKgPerS(surfaceC), WaterKgPerS(surfaceC), 0, 0, HeatOut(surfaceC));

        public CellWall Frosted(double surfaceC, double share)
        {
            var water = WaterKgPerS(surfaceC);
            return new(surfaceC, VapourKgPerS(surfaceC), water * (1 - share), water * share, 0, HeatOut(surfaceC));
        }

        public CellWall Melting(double spareW) =>
            new(0, VapourKgPerS(0), WaterKgPerS(0), 0, spareW / AirTable.FusionJPerKg, HeatOut(0));

        private double HeatOut(double surfaceC) => (surfaceC - OutsideC) / Resistance;
    }
}
