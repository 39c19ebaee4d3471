using CoatScan.DemoPanels.Camera;
using CoatScan.DemoPanels.Clutter;
using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>
/// A sound panel with its surroundings and camera, before any fault. Nothing here knows the visual class, so hardware,
/// dirt, light and camera are alike on sound and faulty panels.
/// </summary>
internal sealed class PanelScene
{
    private const float SheetMetalShare = 0.5f;
    private const float TrimShare = 0.6f;
    private const float SoilShare = 0.7f;
    private readonly PanelRandom _random;
    private readonly SceneLook _look;

    private PanelScene(PanelRandom random, SceneLook look, PanelSurface sound, CoatStack coats, PanelView view)
    {
        _random = random;
        _look = look;
        Sound = sound;
        Coats = coats;
        View = view;
        Anchors = new AnchorPoints(sound.Width, sound.Height);
    }

    public PanelSurface Sound { get; }

    public CoatStack Coats { get; }

    public PanelView View { get; }

    /// <summary>Where faults like to start.</summary>
    public AnchorPoints Anchors { get; }

    /// <summary>Distance inside the panel's edge, pixels; null if the panel fills the picture.</summary>
    public Plane? InsidePx { get; private set; }

    public required CameraModel Camera { get; init; }

    public LightKind Light { get; private set; }

    public Shader Shader { get; private set; } = null!;

    public bool HasHardware { get; private set; }

    public bool HasSoil { get; private set; }

    public float WavinessAmplitudeUm { get; private set; }

    public float WavinessWavelengthMm { get; private set; }

    public static PanelScene Draw(PanelRandom random, DemoPanelOptions options)
    {
        var sizeFactor = Math.Min(options.WidthPx, options.HeightPx) / 480f;
        var mmPerPx = (float?)options.MmPerPx ?? (random.LogUniform(0.07f, 0.9f) / sizeFactor);
        var view = options.View == PanelView.Any ? (PanelView)(1 + random.Weighted(0.68f, 0.22f, 0.1f)) : options.View;
        var surface = new PanelSurface(options.WidthPx, options.HeightPx, mmPerPx);
        var isSheetMetal = random.Chance(SheetMetalShare);
        var isWorking = isSheetMetal ? random.Chance(0.75f) : random.Chance(0.1f);
        var look = SceneLook.Of(options.Look);
        var coats = CoatStack.Draw(random, look.DrawPaint(random, isWorking));
        var scene = new PanelScene(random, look, surface, coats, view) { Camera = look.DrawCamera(random, sizeFactor) };
        var context = new PanelContext(surface, random.Fork(1), coats, 1f, scene.Anchors);
        LayPaint(context, isWorking);
        scene.Form(context with { Random = random.Fork(2) });
        scene.LayHardware(context with { Random = random.Fork(3) }, isSheetMetal);
        look.LayMore(context with { Random = random.Fork(8) });
        if (view != PanelView.CloseUp)
        {
            scene.InsidePx = PanelBorder.Cut(context with { Random = random.Fork(4) }, view == PanelView.WholePanel);
        }

        Shadows.Lay(context with { Random = random.Fork(5) });
        scene.LightUp(0);
        return scene;
    }

    /// <summary>Other light on the same panel; each number is another one.</summary>
    public void LightUp(int variant)
    {
        var random = _random.Fork(100UL + (ulong)variant);
        Light = _look.DrawLight(random);
        var widthMm = Sound.Width * Sound.MmPerPx;
        var distance = MathF.Max(90f, widthMm / random.Uniform(0.7f, 1.2f));
        var tilt = random.Uniform(0.05f, 1.5f);
        var heading = random.Angle();
        var viewpoint = new Viewpoint(
            distance, random.LogUniform(600f, 8000f), tilt * MathF.Cos(heading), tilt * MathF.Sin(heading));
        var norm = MathF.Sqrt(1f + (tilt * tilt));
        var centerU = -2f * viewpoint.TiltX / (1f + norm);
        var centerV = -2f * viewpoint.TiltY / (1f + norm);
        var span = 0.5f * widthMm * viewpoint.MirrorTurnPerMm;
        Shader = new Shader(
            _look.DrawSurroundings(random, Light, centerU, centerV, span),
            _look.DrawIllumination(random, Light),
            viewpoint,
            Coats.Paint.FlakeContrast);
    }

    /// <summary>Dirt that came after the fault.</summary>
    public void LaySoil(PanelSurface surface)
    {
        var random = _random.Fork(6);
        HasSoil = random.Chance(SoilShare);
        if (HasSoil)
        {
            Soil.Lay(new PanelContext(surface, random, Coats, 1f, Anchors));
        }
    }

    /// <summary>Puts what lies behind the panel into the picture.</summary>
    public void AddBackdrop(LinearImage image)
    {
        if (InsidePx is null)
        {
            return;
        }

        var random = _random.Fork(7);
        var backdrop = SceneCatalog.PaintBackdrop(random, image.Width, image.Height);
        var level = random.LogUniform(0.3f, 1.5f);
        var shadowPx = random.LogUniform(2f, 25f);
        for (var y = 0; y < image.Height; y++)
        {
            for (var x = 0; x < image.Width; x++)
            {
                var inside = InsidePx[x, y];
                if (inside < 1f)
                {
                    var shade = inside < 0f ? 1f - (0.6f * MathF.Exp(inside / shadowPx)) : 0.4f;
                    var behind = backdrop.Between(0.5f * x, 0.5f * y);
                    image.Over((y * image.Width) + x, behind * (level * shade), Ramp.Smooth(0.8f, -0.8f, inside));
                }
            }
        }
    }

    private static void LayPaint(PanelContext context, bool isWorking)
    {
        var surface = context.Surface;
        var random = context.Random;
        var paint = context.Coats.Paint;
        var clouds = context.Field(random.LogUniform(0.15f, 0.8f) * context.Side, 4, 0.55f);
        var amount = random.LogUniform(0.004f, 0.05f);
        Array.Fill(surface.SpecularF0.Values, paint.SpecularF0);
        Array.Fill(surface.RoughnessUm.Values, paint.RoughnessUm);
        for (var at = 0; at < clouds.Values.Length; at++)
        {
            surface.SetAlbedo(at, paint.Albedo * MathF.Max(0.3f, 1f + (amount * clouds.Values[at])));
        }

        if (isWorking)
        {
            Weathering.Lay(context);
        }
    }

    // Curvature of the sheet, slow unevenness, and the fine waves that every sprayed film keeps.
    private void Form(PanelContext context)
    {
        var random = context.Random;
        var surface = context.Surface;
        var mm = surface.MmPerPx;
        var halfMm = 0.5f * surface.Width * mm;
        var bend = random.Chance(0.25f) ? 0.35f : 0.12f;
        var bendX = bend * random.Gaussian() / halfMm;
        var bendY = bend * random.Gaussian() / halfMm;
        var twist = 0.05f * random.Gaussian() / halfMm;
        var slow = context.Field(context.Side * random.Uniform(0.25f, 0.6f), 2);
        var slowMm = random.LogUniform(0.002f, random.Chance(0.3f) ? 0.09f : 0.03f) * context.Side * 0.4f * mm * 0.35f;
        WavinessWavelengthMm = Math.Clamp(random.LogUniform(1.5f, 9f), 6f * mm, 60f * mm);
        var slope = random.LogUniform(0.0015f, 0.014f);
        var fine = context.Field(WavinessWavelengthMm / mm / 3f, 1);

        // Rms slope along one axis of waves of one length: 2 pi / L times rms height / root of 2.
        var fineMm = slope * WavinessWavelengthMm / 4.44f;
        WavinessAmplitudeUm = fineMm * 1000f * MathF.Sqrt(2f);
        for (var y = 0; y < surface.Height; y++)
        {
            var v = (y - (0.5f * surface.Height)) * mm;
            for (var x = 0; x < surface.Width; x++)
            {
                var u = (x - (0.5f * surface.Width)) * mm;
                surface.HeightMm[x, y] = (-0.5f * ((bendX * u * u) + (bendY * v * v))) + (twist * u * v)
                    + (slowMm * slow[x, y]) + (fineMm * fine[x, y]);
            }
        }
    }

    // Half of the panels are plain sheet metal, as on trailers, vans' load floors, buses and machines: rows of rivets and
    // screws on sound and faulty ones alike. The others have what cars have.
    private void LayHardware(PanelContext context, bool isSheetMetal)
    {
        var random = context.Random;
        if (!isSheetMetal && !random.Chance(TrimShare))
        {
            return;
        }

        HasHardware = true;
        Sometimes(isSheetMetal ? 0.25f : 0.12f, Dents.Lay);
        Sometimes(0.12f, Seams.LayRibs);
        Sometimes(0.25f, Lettering.LayBand);
        Sometimes(0.3f, Seams.LayCrease);
        Sometimes(0.22f, Fittings.LayBoxes);
        Sometimes(isSheetMetal ? 0.4f : 0.2f, Fittings.LayRoundParts);
        if (isSheetMetal)
        {
            Sometimes(0.6f, LayFastenedSeam);
            Sometimes(0.35f, LayFastenedSeam);
            Sometimes(0.65f, Hardware.LayRows);
            Sometimes(0.35f, Hardware.LaySingles);
            Sometimes(0.12f, Openings.LaySlits);
            Sometimes(0.35f, Lettering.LayWords);
            return;
        }

        Sometimes(0.5f, LayPlainSeam);
        Sometimes(0.25f, LayPlainSeam);
        Sometimes(0.15f, LayFastenedSeam);
        Sometimes(0.15f, Hardware.LaySingles);
        Sometimes(0.3f, Lettering.LayWords);
        Sometimes(0.15f, Seams.LayTrim);

        void Sometimes(float probability, Action<PanelContext> lay)
        {
            if (random.Chance(probability))
            {
                lay(context);
            }
        }
    }

    private static void LayPlainSeam(PanelContext context) => Seams.LayGap(context, SeamLine.Draw(context));

    private static void LayFastenedSeam(PanelContext context)
    {
        var line = SeamLine.Draw(context, 0.4f);
        Seams.LayGap(context, line);
        Hardware.LayBeside(context, line);
    }
}
