using System.Globalization;
using CoatScan.DemoPanels.Camera;
using CoatScan.DemoPanels.Defects;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Scenes;
using CoatScan.DemoPanels.Surface;
using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels;

/// <summary>Renders labelled photos of invented painted panels.</summary>
/// <remarks>
/// Equal class, seed and options give equal bytes on one machine. Uses one thread and shares no state: callers run panels
/// side by side. The fault of a faulty panel is always visible: layouts and light are redrawn until it is.
/// </remarks>
public static class DemoPanelRenderer
{
    private const int MostAttempts = 60;
    private const int AttemptsPerLight = 2;
    private const int MostSecondAttempts = 12;
    private const double MostCovered = 0.4;
    private const float DrawnShotShare = 0.3f;

    /// <summary>Renders one photo.</summary>
    /// <param name="visualClass">One of <see cref="VisualClassIds.All"/>.</param>
    /// <param name="seed">Any number; other numbers give other photos.</param>
    /// <param name="options">What to hold fixed; null for the defaults.</param>
    /// <exception cref="CoatScanException">
    /// <see cref="ErrorReason.FieldInvalid"/> for an unknown class, <see cref="ErrorReason.ValueOutOfRange"/> for an option.
    /// </exception>
    public static DemoPanel Render(string visualClass, ulong seed, DemoPanelOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(visualClass);
        options ??= new DemoPanelOptions();
        Check(visualClass, options);
        var random = new PanelRandom(seed).Fork(Digest(visualClass));
        return visualClass == VisualClassIds.NotAPanel
            ? RenderOther(random, options)
            : RenderPanel(visualClass, random, options);
    }

    private static DemoPanel RenderPanel(string visualClass, PanelRandom random, DemoPanelOptions options)
    {
        var scene = PanelScene.Draw(random.Fork(1), options);
        var surface = scene.Sound;
        float? contrast = null;
        if (DefectCatalog.IsFault(visualClass))
        {
            surface = PaintVisibly(visualClass, scene, random, out var seen);
            contrast = seen;
        }

        var first = surface.Defect;
        if (options.SecondClass is { } second)
        {
            surface = PaintSecond(second, scene, surface, random);
        }

        scene.LaySoil(surface);
        var image = scene.Shader.Shade(surface);
        scene.AddBackdrop(image);
        if (scene.InsidePx is { } inside)
        {
            for (var at = 0; at < inside.Values.Length; at++)
            {
                var share = Ramp.Smooth(-0.5f, 0.5f, inside.Values[at]);
                first.Values[at] *= share;
                if (surface.Defect != first)
                {
                    surface.Defect.Values[at] *= share;
                }
            }
        }

        var perspective = new Perspective(options.WidthPx, options.HeightPx, scene.Camera.PerspectiveX, scene.Camera.PerspectiveY);
        perspective.Apply(image, surface.HeightMm, first);
        if (surface.Defect != first)
        {
            perspective.Apply(surface.Defect);
        }

        var lab = Lab.Of(scene.Coats.Paint.Albedo);
        return new DemoPanel
        {
            VisualClass = visualClass,
            WidthPx = options.WidthPx,
            HeightPx = options.HeightPx,
            Rgb = scene.Camera.Expose(random.Fork(3), image),
            HeightMm = surface.HeightMm,
            MmPerPx = surface.MmPerPx * perspective.Zoom,
            Mask = Marked(first),
            SecondClass = options.SecondClass,
            SecondMask = options.SecondClass is null ? [] : Marked(surface.Defect),
            Facts = new PanelSceneFacts(
                lab.L, lab.A, lab.B, scene.Light.ToString().ToLowerInvariant(), scene.Coats.Paint.RoughnessUm,
                scene.WavinessAmplitudeUm, scene.WavinessWavelengthMm, scene.View, scene.HasHardware, scene.HasSoil, contrast),
        };
    }

    private static bool[] Marked(Plane coverage) => Array.ConvertAll(coverage.Values, share => share >= 0.5f);

    // The light stays: it was chosen so that the first fault shows.
    private static PanelSurface PaintSecond(string visualClass, PanelScene scene, PanelSurface first, PanelRandom random)
    {
        var (neededContrast, neededShare) = Needed(visualClass);
        var neededPx = neededShare * first.Width * first.Height;
        for (var attempt = 0; attempt < MostSecondAttempts; attempt++)
        {
            var surface = first.CopyUnmarked();
            var strength = MathF.Min(2.5f, 1f + (0.2f * attempt));
            DefectCatalog.Paint(
                visualClass, new PanelContext(surface, random.Fork(200UL + (ulong)attempt), scene.Coats, strength, scene.Anchors));
            var (contrast, seenPx) = VisibilityCheck.Compare(scene, first, surface);
            if (contrast >= neededContrast && seenPx >= neededPx && Covered(first.Defect, surface.Defect) <= MostCovered)
            {
                return surface;
            }
        }

        throw new InvalidOperationException($"No visible {visualClass} as a second fault in {MostSecondAttempts} attempts.");
    }

    // Share of the first fault that the second one lies over.
    private static double Covered(Plane first, Plane second)
    {
        int all = 0, both = 0;
        for (var at = 0; at < first.Values.Length; at++)
        {
            if (first.Values[at] >= 0.5f)
            {
                all++;
                both += second.Values[at] >= 0.5f ? 1 : 0;
            }
        }

        return both / (double)Math.Max(1, all);
    }

    private static PanelSurface PaintVisibly(string visualClass, PanelScene scene, PanelRandom random, out float contrast)
    {
        var (neededContrast, neededShare) = Needed(visualClass);
        var neededPx = neededShare * scene.Sound.Width * scene.Sound.Height;
        for (var attempt = 0; attempt < MostAttempts; attempt++)
        {
            if (attempt > 0 && attempt % AttemptsPerLight == 0)
            {
                scene.LightUp(attempt / AttemptsPerLight);
            }

            var surface = scene.Sound.Copy();
            var strength = MathF.Min(2.5f, 1f + (0.1f * attempt));
            DefectCatalog.Paint(
                visualClass, new PanelContext(surface, random.Fork(10UL + (ulong)attempt), scene.Coats, strength, scene.Anchors));
            (contrast, var seenPx) = VisibilityCheck.Compare(scene, scene.Sound, surface);
            if (contrast >= neededContrast && seenPx >= neededPx)
            {
                return surface;
            }
        }

        throw new InvalidOperationException($"No visible {visualClass} in {MostAttempts} attempts.");
    }

    // Contrast that most of the fault must reach, and share of the picture in which it must be seen. Waves and folds show
    // only where the mirror image has edges, but must show over some area; the others must show wherever they are.
    private static (float Contrast, float Share) Needed(string visualClass) => visualClass switch
    {
        VisualClassIds.WavyTexture => (0.015f, 0.02f),
        VisualClassIds.Wrinkles => (0.04f, 0.03f),
        VisualClassIds.Runs => (0.09f, 0.004f),
        VisualClassIds.Dulling => (0.15f, 0.15f),
        VisualClassIds.Mottling => (0.09f, 0.08f),
        VisualClassIds.ColorDifference => (0.1f, 0.08f),
        VisualClassIds.RepairOutline => (0.11f, 0.012f),
        VisualClassIds.Grit => (0.09f, 0.02f),
        VisualClassIds.FilmLoss => (0.12f, 0.006f),
        VisualClassIds.Chips => (0.16f, 0.0015f),
        VisualClassIds.SingleScratch or VisualClassIds.ParallelScratches => (0.15f, 0.001f),
        VisualClassIds.Swirl => (0.08f, 0.0015f),
        VisualClassIds.Domes or VisualClassIds.Craters => (0.15f, 0.003f),
        VisualClassIds.Nibs or VisualClassIds.Pits => (0.15f, 0.001f),
        VisualClassIds.Stains or VisualClassIds.Deposits or VisualClassIds.Rings => (0.15f, 0.004f),
        _ => (0.11f, 0.0006f),
    };

    private static DemoPanel RenderOther(PanelRandom random, DemoPanelOptions options)
    {
        var (image, isDrawn) = SceneCatalog.PaintScene(random.Fork(1), options.WidthPx, options.HeightPx);

        // Somebody may send a photo of a screen or a print, too.
        var camera = isDrawn && !random.Fork(4).Chance(DrawnShotShare)
            ? CameraModel.Ideal
            : CameraModel.Draw(random.Fork(2), Math.Min(options.WidthPx, options.HeightPx) / 480f);
        new Perspective(options.WidthPx, options.HeightPx, camera.PerspectiveX, camera.PerspectiveY).Apply(image);
        return new DemoPanel
        {
            VisualClass = VisualClassIds.NotAPanel,
            WidthPx = options.WidthPx,
            HeightPx = options.HeightPx,
            Rgb = camera.Expose(random.Fork(3), image),
            HeightMm = new Plane(options.WidthPx, options.HeightPx),
            MmPerPx = null,
            Mask = new bool[options.WidthPx * options.HeightPx],
            Facts = null,
        };
    }

    private static void Check(string visualClass, DemoPanelOptions options)
    {
        if (!VisualClassIds.All.Contains(visualClass))
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"visual_class \"{visualClass}\" is not one of {string.Join(", ", VisualClassIds.All)}.",
                "visual_class",
                new Dictionary<string, string> { ["visualClass"] = visualClass });
        }

        if (options.SecondClass is { } second && (!DefectCatalog.IsFault(second) || second == visualClass || !DefectCatalog.IsFault(visualClass)))
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"options.second_class \"{second}\" must be a fault other than \"{visualClass}\", on a panel that has a fault.",
                "options.second_class",
                new Dictionary<string, string> { ["visualClass"] = second });
        }

        CheckRange("options.width_px", options.WidthPx, 160, 4096);
        CheckRange("options.height_px", options.HeightPx, 160, 4096);
        if (options.MmPerPx is { } scale)
        {
            CheckRange("options.mm_per_px", scale, 0.01, 10);
        }
    }

    private static void CheckRange(string field, double value, double low, double high)
    {
        // Written so that NaN fails too.
        if (!(value >= low && value <= high))
        {
            var text = value.ToString(CultureInfo.InvariantCulture);
            throw new CoatScanException(
                ErrorReason.ValueOutOfRange,
                string.Create(CultureInfo.InvariantCulture, $"{field} is {text}; it must lie in [{low}, {high}]."),
                field,
                new Dictionary<string, string> { ["value"] = text });
        }
    }

    // FNV-1a, so that equal seeds of two classes share nothing.
    private static ulong Digest(string text)
    {
        var hash = 14695981039346656037UL;
        foreach (var letter in text)
        {
            hash = (hash ^ letter) * 1099511628211UL;
        }

        return hash;
    }
}
