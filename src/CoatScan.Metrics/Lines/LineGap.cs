namespace CoatScan.Metrics.Lines;

/// <summary>Tells the gap between two lines from a line: a gap has a stronger line of the other sign close by on either side.</summary>
/// <remarks>
/// The lobes beside a lone line have less than half of its own response, those beside a gap more than its own. Looked for within 9 px
/// across; a line is a gap if more than half of its places are. Stripes as wide as their gaps stay both. Source: our own.
/// </remarks>
internal static class LineGap
{
    private const int EveryPx = 4;
    private const int NormalReachPx = 4;
    private const int ReachPx = 9;
    private const float LeastRatio = 1.1f;

    internal static bool Is(LineChain chain, Plane response)
    {
        var (gaps, places) = (0, 0);
        for (var i = Math.Min(EveryPx, chain.Xs.Length - 1); i < chain.Xs.Length; i += EveryPx)
        {
            places++;
            gaps += IsAt(chain, i, response) ? 1 : 0;
        }

        return 2 * gaps > places;
    }

    private static bool IsAt(LineChain chain, int i, Plane response)
    {
        var (from, to) = (Math.Max(0, i - NormalReachPx), Math.Min(chain.Xs.Length - 1, i + NormalReachPx));
        var length = Math.Max(chain.Distance(from, to), 1.0);
        var (alongX, alongY) = ((chain.Xs[to] - chain.Xs[from]) / length, (chain.Ys[to] - chain.Ys[from]) / length);
        var own = response[(int)chain.Xs[i], (int)chain.Ys[i]];
        return Opposite(-1) >= LeastRatio * Math.Abs(own) && Opposite(1) >= LeastRatio * Math.Abs(own);

        float Opposite(int side)
        {
            var most = 0.0f;
            for (var k = 1; k <= ReachPx; k++)
            {
                var x = (int)Math.Round(chain.Xs[i] - (side * k * alongY));
                var y = (int)Math.Round(chain.Ys[i] + (side * k * alongX));
                if (x >= 0 && y >= 0 && x < response.Width && y < response.Height)
                {
                    most = Math.Max(most, -Math.Sign(own) * response[x, y]);
                }
            }

            return most;
        }
    }
}
