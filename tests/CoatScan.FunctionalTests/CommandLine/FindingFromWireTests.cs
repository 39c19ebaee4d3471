using CoatScan.Cli.Sheets;
using CoatScan.Service.Mapping;
using CoatScan.V1;
using Google.Protobuf.WellKnownTypes;

namespace CoatScan.FunctionalTests.CommandLine;

public sealed class FindingFromWireTests
{
    [Fact]
    public void Of_finding_loses_nothing()
    {
        var wire = SampleFinding.Full();
        wire.CreateTime = Timestamp.FromDateTimeOffset(new DateTimeOffset(2026, 5, 2, 9, 30, 0, TimeSpan.Zero));
        wire.ExternalRef = "claim";
        wire.Photos[0].Sha256 = new string('a', 64);
        wire.Photos[0].CaptureTime = "2026-05-01T10:00:00";
        wire.Photos[0].Scale = new PhotoScale { Source = "CARD", MmPerPx = 0.25, TiltDegrees = 3, Uncertainty = 0.02 };
        wire.Photos[0].Color = new PhotoColor { Source = "HIGHLIGHTS", RedGain = 1.1, BlueGain = 0.9, Reason = "glints", Uncertainty = 0.1, PaperLevel = 0.8 };
        wire.Photos[0].Issues[0].Limits = "nothing in millimeters";
        wire.Photos[0].SeenBefore.Add(new EarlierPicture
        {
            Finding = "findings/old",
            CreateTime = wire.CreateTime,
            Sha256 = new string('b', 64),
            DistanceBits = 3,
            CaptureTime = "2026-04-01T10:00:00",
        });
        wire.Photos[0].Outlines.Add(new PhotoOutline { Kind = "SCALE_CARD", Points = { new OutlinePoint { XPx = 1.5, YPx = 2 }, new OutlinePoint { XPx = 9, YPx = 2.5 } } });
        wire.Photos[0].Outlines.Add(new PhotoOutline { Kind = "REFLECTED_EDGE", Points = { new OutlinePoint { XPx = 3, YPx = 4 } } });
        wire.Photos[0].Spots.Add(new PhotoSpot { CenterXPx = 120.5, CenterYPx = 60, DiameterPx = 4.5 });
        wire.Photos[0].Spots.Add(new PhotoSpot { CenterXPx = 7, CenterYPx = 8.5, DiameterPx = 3 });
        wire.Photos[0].SpotsLeftOut = 12;
        wire.VisualClasses[0].Regions[0].WidthMm = 200;
        wire.VisualClasses[0].Regions[0].HeightMm = 125;
        wire.Measurements[1].PhotoIndex = 1;
        wire.Beside.Add("conditions/mineral_deposit");
        wire.Parties[0].SpeaksFor.Add("washed in the sun");
        wire.Parties[0].SpeaksAgainst.Add("waxed");
        wire.Evidence[1].SaidBy.Add("owner");
        wire.NextTests[0].GainBits = 0.4;
        wire.NextTests[0].Consent = "owner";
        wire.Remedy.Steps[0].Condition = "conditions/water_ring_etch";
        wire.Remedy.Steps[1].Condition = "conditions/water_ring_etch";
        wire.Remedy.Steps[0].NotBefore = "2026-05-20";
        wire.Remedy.Steps[0].BetterFrom = "2026-06-01";
        wire.Remedy.Steps[0].SpendsUm = new FilmSpend { Low = 1, High = 2 };
        wire.Claim = new ClaimSheet { Dates = "DOES_NOT_FIT", DatesText = "no", Questions = { "when?" }, SignsOfAge = "dirt" };
        wire.FilmMap.Add(new FilmMapEntry
        {
            Panel = "hood",
            Count = 2,
            LowUm = 90,
            MedianUm = 95,
            HighUm = 400,
            FilmClass = "SEVERAL_FINISHES",
            Uneven = true,
            Text = "uneven",
        });
        wire.FilmBudget = new FilmBudget { LowUm = 90, AllowanceUm = 5, FaultDepthUm = 9, Text = "5" };
        wire.HandOvers.Add(new HandOver { Matter = "lead", Why = "old", To = "shop" });
        wire.Provenance = new Provenance
        {
            ServiceVersion = "1",
            ModelVersion = "2",
            ModelSha256 = "3",
            KnowledgeVersion = "4",
            MetricSetVersion = "5",
        };

        Assert.Equal(wire, FindingMapping.ToWire(FindingFromWire.Of(wire)));
    }

    [Fact]
    public void Of_finding_of_a_later_service_says_less_rather_than_wrong()
    {
        var wire = SampleFinding.Full();
        wire.Timing.Class = "SOMETHING_NEW";
        wire.Photos[0].Issues[0].Code = "SOMETHING_NEW";
        wire.Photos[0].Scale.Source = "SOMETHING_NEW";
        wire.Photos[0].Outlines.Add(new PhotoOutline { Kind = "SOMETHING_NEW", Points = { new OutlinePoint() } });
        wire.Verdict = (Verdict)99;

        var finding = FindingFromWire.Of(wire);

        Assert.Equal(CoatScan.Findings.TimingClass.CannotTell, finding.Timing.Class);
        Assert.Empty(finding.Photos[0].Issues);
        Assert.Empty(finding.Photos[0].Outlines);
        Assert.Equal(CoatScan.Findings.ScaleSource.None, finding.Photos[0].Scale.Source);
        Assert.Equal(CoatScan.Findings.Verdict.Inconclusive, finding.Verdict);
    }
}
