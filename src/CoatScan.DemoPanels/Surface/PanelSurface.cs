using CoatScan.DemoPanels.Paint;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Surface;

/// <summary>Everything a ray needs to know about a panel, point by point: form, color under the film, optics of the film.</summary>
internal sealed class PanelSurface
{
    public PanelSurface(int width, int height, float mmPerPx)
    {
        Width = width;
        Height = height;
        MmPerPx = mmPerPx;
        HeightMm = new Plane(width, height);
        Red = new Plane(width, height);
        Green = new Plane(width, height);
        Blue = new Plane(width, height);
        SpecularF0 = new Plane(width, height);
        RoughnessUm = new Plane(width, height);
        Light = new Plane(width, height);
        Defect = new Plane(width, height);
        Array.Fill(Light.Values, 1f);
    }

    private PanelSurface(PanelSurface other)
    {
        Width = other.Width;
        Height = other.Height;
        MmPerPx = other.MmPerPx;
        HeightMm = CopyOf(other.HeightMm);
        Red = CopyOf(other.Red);
        Green = CopyOf(other.Green);
        Blue = CopyOf(other.Blue);
        SpecularF0 = CopyOf(other.SpecularF0);
        RoughnessUm = CopyOf(other.RoughnessUm);
        Light = CopyOf(other.Light);
        Defect = CopyOf(other.Defect);
    }

    public int Width { get; }

    public int Height { get; }

    public float MmPerPx { get; }

    /// <summary>The shorter side, pixels.</summary>
    public int SidePx => Math.Min(Width, Height);

    /// <summary>Height of the outer surface, mm, positive toward the camera.</summary>
    public Plane HeightMm { get; }

    /// <summary>Diffuse reflectance, linear, red.</summary>
    public Plane Red { get; }

    /// <summary>Diffuse reflectance, linear, green.</summary>
    public Plane Green { get; }

    /// <summary>Diffuse reflectance, linear, blue.</summary>
    public Plane Blue { get; }

    /// <summary>Mirror reflectance at normal view: 0.04 for clear coat, about 0.5 for bare metal.</summary>
    public Plane SpecularF0 { get; }

    /// <summary>Rms height of the structure below about 0.1 mm, micrometers: it takes light from the mirror image into haze.</summary>
    public Plane RoughnessUm { get; }

    /// <summary>Share of the scene's light that arrives: shadows and lamps' fall-off.</summary>
    public Plane Light { get; }

    /// <summary>Coverage by the fault, [0, 1].</summary>
    public Plane Defect { get; }

    public PanelSurface Copy() => new(this);

    /// <summary>A copy on which nothing is marked as a fault.</summary>
    public PanelSurface CopyUnmarked()
    {
        var copy = new PanelSurface(this);
        Array.Clear(copy.Defect.Values);
        return copy;
    }

    public Rgb Albedo(int at) => new(Red.Values[at], Green.Values[at], Blue.Values[at]);

    public void SetAlbedo(int at, Rgb color)
    {
        Red.Values[at] = color.R;
        Green.Values[at] = color.G;
        Blue.Values[at] = color.B;
    }

    /// <summary>Lays a coat over one point; <paramref name="coverage"/> in [0, 1].</summary>
    public void Cover(int at, Coat coat, float coverage, float tone = 1f)
    {
        if (coverage <= 0f)
        {
            return;
        }

        Tint(at, coat.Albedo * tone, coverage);
        SpecularF0.Values[at] = Ramp.Mix(SpecularF0.Values[at], coat.SpecularF0, coverage);
        RoughnessUm.Values[at] = Ramp.Mix(RoughnessUm.Values[at], coat.RoughnessUm, coverage);
    }

    /// <summary>Mixes a color into one point and leaves the film's optics alone.</summary>
    public void Tint(int at, Rgb color, float coverage)
    {
        Red.Values[at] = Ramp.Mix(Red.Values[at], color.R, coverage);
        Green.Values[at] = Ramp.Mix(Green.Values[at], color.G, coverage);
        Blue.Values[at] = Ramp.Mix(Blue.Values[at], color.B, coverage);
    }

    public void MarkDefect(int at, float coverage)
    {
        if (coverage > Defect.Values[at])
        {
            Defect.Values[at] = Math.Min(1f, coverage);
        }
    }

    // Cloning spares the clearing of memory that is overwritten at once.
    private static Plane CopyOf(Plane plane) => new(plane.Width, plane.Height, (float[])plane.Values.Clone());
}
