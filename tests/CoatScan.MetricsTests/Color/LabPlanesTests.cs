using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CsCheck;

namespace CoatScan.MetricsTests.Color;

public sealed class LabPlanesTests
{
    private static readonly Gen<float> Channel = Gen.Double[0, 1].Select(value => (float)value);

    [Fact]
    public void FromLinear_any_color_matches_the_exact_conversion() =>
        Gen.Select(Channel, Channel, Channel).Sample(
            (red, green, blue) =>
            {
                var exact = CieLab.FromLinear(red, green, blue);
                var planes = LabPlanes.FromLinear(Filled(red), Filled(green), Filled(blue));
                for (var i = 0; i < planes.Lightness.Values.Length; i++)
                {
                    Assert.Equal(exact.L, planes.Lightness.Values[i], 0.001);
                    Assert.Equal(exact.A, planes.AStar.Values[i], 0.001);
                    Assert.Equal(exact.B, planes.BStar.Values[i], 0.001);
                }
            },
            iter: 300);

    [Fact]
    public void FromLinear_dark_ramp_crosses_the_break_without_a_step()
    {
        var ramp = new Plane(2001, 1);
        for (var x = 0; x < ramp.Width; x++)
        {
            ramp[x, 0] = x * 1e-5f;
        }

        var planes = LabPlanes.FromLinear(ramp, ramp, ramp);

        for (var x = 0; x < ramp.Width; x++)
        {
            Assert.Equal(CieLab.FromLinear(ramp[x, 0], ramp[x, 0], ramp[x, 0]).L, planes.Lightness[x, 0], 0.001);
        }
    }

    [Fact]
    public void FromLinear_planes_of_different_size_are_refused() =>
        Assert.Throws<ArgumentException>(() => LabPlanes.FromLinear(new(4, 4), new(4, 4), new(4, 5)));

    // 7 x 3 = 21 samples: whole vectors and a rest.
    private static Plane Filled(float value)
    {
        var plane = new Plane(7, 3);
        plane.Values.AsSpan().Fill(value);
        return plane;
    }
}
