using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels;

public sealed class ReferencePanelTests
{
    [Theory]
    [InlineData(2.0)]
    [InlineData(4.0)]
    [InlineData(8.0)]
    public void HeightMm_sine_has_the_wavelength_asked_for(double wavelengthMm)
    {
        var panel = new ReferencePanel { WavelengthMm = wavelengthMm, MmPerPx = 0.125 };

        // 512 px x 0.125 mm = 64 mm holds a whole number of each wavelength: the strongest frequency is exact.
        var strongest = StrongestCyclesPerRow(panel.HeightMm(), row: 100);

        Assert.Equal(64.0 / wavelengthMm, strongest);
    }

    [Theory]
    [InlineData(0.5, 5.0, 100.0)]
    [InlineData(0.25, 5.0, 200.0)]
    [InlineData(1.0, 8.0, 100.0)]
    public void LinearLight_edge_shifts_by_twice_the_slope_times_the_distance(double amplitudeUm, double wavelengthMm, double distanceMm)
    {
        // Law of reflection: a slope turns the ray by twice its angle, so an edge at distance D shifts by 2 D slope; a
        // sine's slope has the rms 2 pi A / (L root 2), hence root 2 x D x 2 pi A / L. The wave runs at 45 degrees, so
        // that its phase changes along the upright edge: of its slope, cos 45 lies across the edge.
        var panel = new ReferencePanel
        {
            AmplitudeUm = amplitudeUm,
            WavelengthMm = wavelengthMm,
            EdgeDistanceMm = distanceMm,
            MmPerPx = 0.08,
            WaveAngle = Math.PI / 4,
            EdgeSoftnessRad = 0.6 / distanceMm,
        };
        var expectedMm = Math.Sqrt(2) * distanceMm * 2 * Math.PI * amplitudeUm * 1e-3 / wavelengthMm * Math.Cos(Math.PI / 4);

        var measuredMm = EdgeRmsPx(panel.LinearLight(), (panel.BrightRadiance * 0.02) + (0.03 * 0.96)) * panel.MmPerPx;

        Assert.InRange(measuredMm, 0.93 * expectedMm, 1.07 * expectedMm);
    }

    [Fact]
    public void LinearLight_flat_film_keeps_the_edge_straight()
    {
        var panel = new ReferencePanel { AmplitudeUm = 0, MmPerPx = 0.08, EdgeDistanceMm = 100, EdgeSoftnessRad = 0.006 };

        Assert.InRange(EdgeRmsPx(panel.LinearLight(), 0.02 + (0.03 * 0.96)), 0, 0.02);
    }

    [Fact]
    public void LinearLight_uniform_surroundings_hide_waviness()
    {
        var panel = new ReferencePanel { AmplitudeUm = 5, WavelengthMm = 5, BrightRadiance = 1, DarkRadiance = 1 };

        Assert.InRange(MichelsonContrast(panel.LinearLight()), 0, 1e-3);
    }

    [Fact]
    public void LinearLight_dark_paint_shows_twelve_times_the_contrast_of_white()
    {
        // Mirrored pattern of mean radiance 1 over diffuse base rho: C = R / (R + rho), R = 0.04 for n = 1.5 at normal
        // view (Fresnel), so .571 for rho .03 and .048 for rho .8: a factor of 12. The rendered base lacks the share R
        // that is mirrored, which moves the figures by under 4 %.
        var pattern = new ReferencePanel { BrightRadiance = 2, DarkRadiance = 0, AmplitudeUm = 0 };

        var dark = MichelsonContrast((pattern with { Albedo = 0.03 }).LinearLight());
        var white = MichelsonContrast((pattern with { Albedo = 0.8 }).LinearLight());

        Assert.Equal(0.571, dark, 0.02);
        Assert.Equal(0.048, white, 0.003);
        Assert.Equal(12.0, dark / white, 0.8);
    }

    [Fact]
    public void LinearLight_roughness_softens_and_weakens_the_mirrored_edge()
    {
        var glossy = new ReferencePanel { AmplitudeUm = 0, RoughnessUm = 0.01 };

        var sharp = SteepestStep(glossy.LinearLight());
        var satin = SteepestStep((glossy with { RoughnessUm = 0.05 }).LinearLight());
        var dull = SteepestStep((glossy with { RoughnessUm = 0.2 }).LinearLight());

        Assert.True(satin < 0.5 * sharp, $"{satin} against {sharp}");
        Assert.True(dull < 0.2 * satin, $"{dull} against {satin}");
    }

    [Theory]
    [InlineData(0.01)]
    [InlineData(0.03)]
    [InlineData(0.05)]
    public void LinearLight_mirrored_share_follows_the_roughness_law(double roughnessUm)
    {
        // Davies 1954; Bennett and Porteus, JOSA 51, 123, 1961 (from memory): exp(-(4 pi sigma / lambda)^2) at normal view.
        var expected = Math.Exp(-Math.Pow(4 * Math.PI * roughnessUm / 0.55, 2));
        var panel = new ReferencePanel
        {
            AmplitudeUm = 0,
            RoughnessUm = roughnessUm,
            Albedo = 0,
            EdgeDistanceMm = 300,
            MmPerPx = 0.1,
        };
        var light = panel.LinearLight();

        // Just beyond the blurred edge on both sides; haze hardly changes over so small an angle.
        var step = Math.Abs(light[256 + 60, 256] - light[255 - 60, 256]) / 0.04;

        Assert.Equal(expected, step, 0.04);
    }

    [Fact]
    public void Render_gray_levels_follow_the_linear_light()
    {
        var panel = new ReferencePanel { Exposure = 5 };
        var photo = panel.Render();
        var light = panel.LinearLight();

        Assert.Equal(VisualClassIds.WavyTexture, photo.VisualClass);
        Assert.Equal(0.1, photo.MmPerPx);

        // IEC 61966-2-1 at linear 0.144 (dark side: 0.03 x 0.96 x 5): 1.055 x 0.144^(1/2.4) - 0.055 = 0.4154 -> 106.
        var dark = Array.IndexOf(light.Values, light.Values.Min());
        Assert.InRange(photo.Rgb[3 * dark], 105, 107);
    }

    [Theory]
    [InlineData(-1, 0.1, 5, 1000, 1000)]
    [InlineData(1, 0, 5, 1000, 1000)]
    [InlineData(1, 0.1, 0.3, 1000, 1000)]
    [InlineData(1, 0.1, 5, 0, 1000)]
    [InlineData(1, 0.1, 5, 1000, 0)]
    public void Render_impossible_panel_is_refused(double amplitude, double mmPerPx, double wavelength, double edge, double camera)
    {
        var panel = new ReferencePanel
        {
            AmplitudeUm = amplitude,
            MmPerPx = mmPerPx,
            WavelengthMm = wavelength,
            EdgeDistanceMm = edge,
            CameraDistanceMm = camera,
        };

        var error = Assert.Throws<CoatScanException>(() => panel.Render());

        Assert.Equal(ErrorReason.ValueOutOfRange, error.Reason);
    }

    private static double StrongestCyclesPerRow(Plane plane, int row)
    {
        var best = 0;
        var bestPower = 0.0;
        for (var cycles = 1; cycles < plane.Width / 2; cycles++)
        {
            double real = 0, imaginary = 0;
            for (var x = 0; x < plane.Width; x++)
            {
                var phase = 2 * Math.PI * cycles * x / plane.Width;
                real += plane[x, row] * Math.Cos(phase);
                imaginary += plane[x, row] * Math.Sin(phase);
            }

            var power = (real * real) + (imaginary * imaginary);
            if (power > bestPower)
            {
                (best, bestPower) = (cycles, power);
            }
        }

        return best;
    }

    // Rms of the edge's column about its mean, found row by row where the light crosses a level.
    private static double EdgeRmsPx(Plane light, double level)
    {
        var positions = new List<double>();
        for (var y = 2; y < light.Height - 2; y++)
        {
            for (var x = 1; x < light.Width; x++)
            {
                var before = light[x - 1, y] - level;
                var after = light[x, y] - level;
                if (before * after <= 0 && before != after)
                {
                    positions.Add(x - 1 + (before / (before - after)));
                    break;
                }
            }
        }

        Assert.Equal(light.Height - 4, positions.Count);
        var mean = positions.Average();
        return Math.Sqrt(positions.Average(p => (p - mean) * (p - mean)));
    }

    private static double MichelsonContrast(Plane light) =>
        (light.Values.Max() - (double)light.Values.Min()) / (light.Values.Max() + (double)light.Values.Min());

    private static double SteepestStep(Plane light)
    {
        var steepest = 0.0;
        for (var x = 1; x < light.Width; x++)
        {
            steepest = Math.Max(steepest, Math.Abs(light[x, light.Height / 2] - light[x - 1, light.Height / 2]));
        }

        return steepest;
    }
}
