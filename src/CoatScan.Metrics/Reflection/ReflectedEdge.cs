namespace CoatScan.Metrics.Reflection;

/// <summary>The straight edge of a reflected object, traced along its length.</summary>
internal sealed record ReflectedEdge
{
    /// <summary>Distance of the edge from its smooth curve, each pixel of its length, pixels.</summary>
    internal required double[] ResidualsPx { get; init; }

    /// <summary>Standard deviation of the error of one traced place, pixels, from the second differences of the
    /// residuals.</summary>
    internal required double NoisePx { get; init; }

    /// <summary>What block coding adds, see <see cref="TraceCoding"/>, cubic pixels.</summary>
    internal required double CodingPowerPx3 { get; init; }

    /// <summary>Blur of the edge in each of its stretches, standard deviation of a Gaussian, pixels; the waviness is not in
    /// it.</summary>
    internal required IReadOnlyList<double> BlurPx { get; init; }

    /// <summary>Where it runs, a few points from end to end, pixels of the planes.</summary>
    internal IReadOnlyList<(double X, double Y)> Course { get; init; } = [];

    /// <summary>Whether clipping cuts the bright side: its place is still told, its blur is not.</summary>
    internal required bool IsClipped { get; init; }

    internal int LengthPx => ResidualsPx.Length;
}
