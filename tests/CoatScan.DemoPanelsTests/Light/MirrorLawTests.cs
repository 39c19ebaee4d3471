using System.Text.Json;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

public sealed class MirrorLawTests
{
    private static readonly JsonElement Reference = JsonDocument.Parse(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "TestData", "science", "gloss.json"))).RootElement;

    // Schlick's approximation for n = 1.5: 0.04 at normal view, 0.07 at 60 degrees (exact Fresnel: 0.0892).
    [Theory]
    [InlineData(0.0, "F0_n1.5")]
    [InlineData(60.0, "F60_schlick_n1.5")]
    public void At_smooth_film_mirrors_the_share_of_the_reference(double degrees, string entry)
    {
        var light = Look(degrees, 0.0, Surroundings.Uniform(1f));

        Assert.Equal(Reference.GetProperty("schlick").GetProperty(entry).GetDouble(), light, 0.001);
    }

    // Bennett and Porteus, JOSA 51, 123, 1961: exp(-(4 pi sigma cos t / lambda)^2) of the mirror image is left, the rest is
    // haze.
    [Fact]
    public void At_rough_film_keeps_the_mirror_image_of_the_reference()
    {
        var table = Reference.GetProperty("roughness_specular_ratio");
        Assert.Equal(0.55, table.GetProperty("lambda_um").GetDouble());
        foreach (var row in table.GetProperty("rows").EnumerateArray())
        {
            var (sigma, degrees, expected) = (row[0].GetDouble(), row[1].GetDouble(), row[3].GetDouble());
            var (smooth, hazy) = (Look(degrees, 0.0, HalfBright(degrees)), Look(degrees, 5.0, HalfBright(degrees)));
            var share = (Look(degrees, sigma, HalfBright(degrees)) - hazy) / (smooth - hazy);

            // The shader leaves out shares under 0.02 and above 0.98.
            Assert.Equal(expected, share, 0.021);
        }
    }

    // The mirrored direction, -2 tan(t / 2) in the surroundings' stereographic plane, lies 0.2 beyond the edge.
    private static Surroundings HalfBright(double degrees) => new(
        Rgb.Gray(1f), Rgb.Gray(1f), Rgb.Gray(0f), Rgb.Gray(0f), 0f,
        (float)((-2.0 * Math.Tan(0.5 * degrees * Math.PI / 180.0)) + 0.2), 0.01f, [0f], []);

    // A black film: all light is mirrored.
    private static double Look(double degrees, double roughnessUm, Surroundings surroundings)
    {
        var surface = new PanelSurface(3, 3, 0.1f);
        Array.Fill(surface.SpecularF0.Values, 0.04f);
        Array.Fill(surface.RoughnessUm.Values, (float)roughnessUm);
        for (var at = 0; at < 9; at++)
        {
            surface.SetAlbedo(at, Rgb.Gray(0f));
        }

        var viewpoint = new Viewpoint(1e6f, 1e6f, 0f, (float)Math.Tan(degrees * Math.PI / 180.0));
        return new Shader(surroundings, Illumination.Even, viewpoint, 0f).At(surface, 1, 1).G;
    }
}
