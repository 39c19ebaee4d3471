using CoatScan.Findings;

namespace CoatScan.DemoPanels;

public sealed class DemoPanelRendererTests
{
    private static readonly DemoPanelOptions Small = new() { WidthPx = 320, HeightPx = 240 };
    private static readonly DemoPanelOptions Tiny = new() { WidthPx = 160, HeightPx = 160 };

    public static TheoryData<string> Classes => [.. VisualClassIds.All];

    [Theory]
    [MemberData(nameof(Classes))]
    public void Render_same_seed_gives_same_bytes(string visualClass)
    {
        var first = DemoPanelRenderer.Render(visualClass, 5, Small);
        var second = DemoPanelRenderer.Render(visualClass, 5, Small);

        Assert.Equal(first.Rgb, second.Rgb);
        Assert.Equal(first.Mask, second.Mask);
        Assert.Equal(first.HeightMm.Values, second.HeightMm.Values);
        Assert.Equal(first.EncodeJpeg(85), second.EncodeJpeg(85));
        Assert.Equal(first.Facts, second.Facts);
    }

    [Fact]
    public void Render_side_by_side_gives_what_one_thread_gives()
    {
        var classes = VisualClassIds.All.ToArray();
        var together = new byte[classes.Length][];
        Parallel.For(0, classes.Length, i => together[i] = DemoPanelRenderer.Render(classes[i], 7, Small).Rgb);

        for (var i = 0; i < classes.Length; i++)
        {
            Assert.Equal(DemoPanelRenderer.Render(classes[i], 7, Small).Rgb, together[i]);
        }
    }

    [Theory]
    [MemberData(nameof(Classes))]
    public void Render_other_seed_gives_other_bytes(string visualClass) => Assert.NotEqual(
        DemoPanelRenderer.Render(visualClass, 5, Small).Rgb, DemoPanelRenderer.Render(visualClass, 6, Small).Rgb);

    [Fact]
    public void Render_same_seed_of_other_class_gives_another_scene()
    {
        var spots = DemoPanelRenderer.Render(VisualClassIds.Deposits, 5, Tiny);
        var rings = DemoPanelRenderer.Render(VisualClassIds.Rings, 5, Tiny);

        Assert.NotEqual(spots.Facts!.PaintLStar, rings.Facts!.PaintLStar);
    }

    [Theory]
    [MemberData(nameof(Classes))]
    public void Render_mask_is_empty_exactly_without_a_fault(string visualClass)
    {
        var isFault = visualClass is not (VisualClassIds.Sound or VisualClassIds.NotAPanel);
        for (var seed = 0UL; seed < 4; seed++)
        {
            var panel = DemoPanelRenderer.Render(visualClass, seed, Tiny);

            Assert.Equal(panel.WidthPx * panel.HeightPx, panel.Mask.Length);
            Assert.Equal(isFault, panel.Mask.Contains(true));
            Assert.Equal(isFault, panel.Facts?.VisibleContrast is not null);
        }
    }

    [Fact]
    public void Render_shifted_draws_only_lights_and_paints_that_the_usual_look_never_has()
    {
        var usual = Enumerable.Range(0, 12).Select(seed => DemoPanelRenderer.Render(VisualClassIds.Sound, (ulong)seed, Tiny)).ToArray();
        var shifted = Enumerable.Range(0, 12)
            .Select(seed => DemoPanelRenderer.Render(VisualClassIds.Sound, (ulong)seed, Tiny with { Look = PanelLook.Shifted }))
            .ToArray();

        Assert.Empty(shifted.Select(panel => panel.Facts!.Light).Intersect(usual.Select(panel => panel.Facts!.Light)));
        Assert.All(usual, panel => Assert.InRange(panel.Facts!.RoughnessUm, 0.01, 0.4));
        Assert.All(shifted, panel => Assert.True(panel.Facts!.RoughnessUm is < 0.01 or > 0.4));
        Assert.All(usual.Zip(shifted), pair => Assert.NotEqual(pair.First.Rgb, pair.Second.Rgb));
    }

    [Fact]
    public void Render_two_faults_keeps_the_first_where_it_was_and_marks_the_second_apart()
    {
        var one = DemoPanelRenderer.Render(VisualClassIds.Chips, 3, Small);
        var two = DemoPanelRenderer.Render(VisualClassIds.Chips, 3, Small with { SecondClass = VisualClassIds.Rust });

        Assert.Equal(one.Mask, two.Mask);
        Assert.Equal((VisualClassIds.Chips, VisualClassIds.Rust), (two.VisualClass, two.SecondClass));
        Assert.Contains(true, two.SecondMask);
        Assert.NotEqual(two.Mask, two.SecondMask);
        Assert.Empty(one.SecondMask);
        Assert.NotEqual(one.Rgb, two.Rgb);
    }

    [Theory]
    [InlineData(VisualClassIds.Chips, VisualClassIds.Chips)]
    [InlineData(VisualClassIds.Chips, VisualClassIds.Sound)]
    [InlineData(VisualClassIds.Sound, VisualClassIds.Rust)]
    [InlineData(VisualClassIds.Chips, "dirt")]
    public void Render_with_a_second_class_that_is_no_other_fault_names_the_field(string first, string second) => Assert.Equal(
        "options.second_class",
        Assert.Throws<CoatScanException>(() => DemoPanelRenderer.Render(first, 1, Tiny with { SecondClass = second })).Field);

    [Fact]
    public void Render_not_a_panel_claims_no_scale_and_no_facts()
    {
        var scene = DemoPanelRenderer.Render(VisualClassIds.NotAPanel, 1, Tiny);

        Assert.Null(scene.MmPerPx);
        Assert.Null(scene.Facts);
    }

    [Fact]
    public void Render_with_scale_keeps_it_but_for_perspective()
    {
        var options = Tiny with { MmPerPx = 0.25 };
        for (var seed = 0UL; seed < 6; seed++)
        {
            // Keystone magnifies by at most 1 / (1 - 2 x 0.22), the camera's limits along both axes.
            var scale = DemoPanelRenderer.Render(VisualClassIds.Chips, seed, options).MmPerPx!.Value;
            Assert.InRange(scale, 0.25 * 0.56 - 1e-6, 0.25 + 1e-6);
        }
    }

    [Fact]
    public void Render_chips_mask_covers_pixels_that_differ_from_their_surroundings()
    {
        var panel = DemoPanelRenderer.Render(VisualClassIds.Chips, 3, new DemoPanelOptions { View = PanelView.CloseUp });

        var difference = MaskStatistics.ColorDifferenceAcrossOutline(panel, 6);

        Assert.True(difference > 0.04 * 255, $"Mean difference across the outline is {difference:F1} levels.");
    }

    [Fact]
    public void Render_hardware_is_as_common_on_faulty_panels_as_on_sound_ones()
    {
        // Half of the panels are sheet metal, which always has some; 0.6 of the others do: 0.8. In 40 draws that has a standard error of
        // 0.063: both must lie within three of them.
        var sound = ShareWithHardware(VisualClassIds.Sound);
        var faulty = ShareWithHardware(VisualClassIds.SingleScratch);

        Assert.InRange(sound, 0.61, 0.99);
        Assert.InRange(faulty, 0.61, 0.99);
    }

    [Fact]
    public void Render_unknown_class_is_refused_by_name()
    {
        var error = Assert.Throws<CoatScanException>(() => DemoPanelRenderer.Render("Rust", 1));

        Assert.Equal(ErrorReason.FieldInvalid, error.Reason);
        Assert.Equal("visual_class", error.Field);
    }

    [Theory]
    [InlineData(159, 200, null, "options.width_px")]
    [InlineData(4097, 200, null, "options.width_px")]
    [InlineData(200, 159, null, "options.height_px")]
    [InlineData(200, 4097, null, "options.height_px")]
    [InlineData(200, 200, 0.009, "options.mm_per_px")]
    [InlineData(200, 200, 10.1, "options.mm_per_px")]
    [InlineData(200, 200, double.NaN, "options.mm_per_px")]
    public void Render_option_out_of_range_is_refused_by_field(int width, int height, double? mmPerPx, string field)
    {
        var options = new DemoPanelOptions { WidthPx = width, HeightPx = height, MmPerPx = mmPerPx };

        var error = Assert.Throws<CoatScanException>(() => DemoPanelRenderer.Render(VisualClassIds.Sound, 1, options));

        Assert.Equal(ErrorReason.ValueOutOfRange, error.Reason);
        Assert.Equal(field, error.Field);
    }

    private static double ShareWithHardware(string visualClass)
    {
        var count = 0;
        for (var seed = 0UL; seed < 40; seed++)
        {
            count += DemoPanelRenderer.Render(visualClass, seed, Tiny).Facts!.HasHardware ? 1 : 0;
        }

        return count / 40.0;
    }
}
