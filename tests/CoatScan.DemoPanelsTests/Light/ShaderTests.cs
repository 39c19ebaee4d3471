using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

public sealed class ShaderTests
{
    // 61 is no multiple of any register's lanes, 3 is less than one register holds.
    [Theory]
    [InlineData(61, 24)]
    [InlineData(3, 5)]
    public void Shade_gives_each_point_what_it_gets_alone(int width, int height)
    {
        var surface = BumpySurface(width, height);
        var shader = BusyShader();

        var image = shader.Shade(surface);

        for (var at = 0; at < width * height; at++)
        {
            // But for rounding: a short cut taken by all lanes skips a mix with weight 1.
            var alone = shader.At(surface, at % width, at / width);
            Assert.Equal(alone.R, image.Red.Values[at], 1e-5f);
            Assert.Equal(alone.B, image.Blue.Values[at], 1e-5f);
        }
    }

    private static Shader BusyShader()
    {
        var random = new PanelRandom(4);
        var viewpoint = new Viewpoint(300f, 900f, 0.3f, -0.2f);
        var surroundings = SurroundingsPalette.Draw(random, LightKind.Window, -0.3f, 0.2f, 0.4f);
        var light = new Illumination(0.4f, 0.2f, 0.1f, -0.7f, 0.3f, 0.6f, Rgb.Gray(1f));
        return new Shader(surroundings, light, viewpoint, flakeContrast: 0f);
    }

    private static PanelSurface BumpySurface(int width, int height)
    {
        var surface = new PanelSurface(width, height, 0.3f);
        Noise.Fractal(new PanelRandom(1), width, height, 4f, 3).Values.CopyTo(surface.HeightMm.Values, 0);
        Array.Fill(surface.SpecularF0.Values, 0.04f);
        for (var at = 0; at < width * height; at++)
        {
            surface.SetAlbedo(at, Rgb.Gray(0.2f));

            // From mirror to haze, so that every short cut of the reflection is taken somewhere within one register.
            surface.RoughnessUm.Values[at] = 0.02f * (at % 9);
        }

        return surface;
    }
}
