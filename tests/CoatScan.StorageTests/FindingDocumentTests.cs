using System.Text.Json;
using System.Text.Json.Nodes;
using CoatScan.Findings;
using CoatScan.Storage;

namespace CoatScan.StorageTests;

public class FindingDocumentTests
{
    [Fact]
    public void Read_written_finding_equals_it_in_every_field()
    {
        var finding = TestFindings.Full();

        var read = FindingDocument.Read(FindingDocument.Write(finding));

        Assert.Equivalent(finding, read, strict: true);
        Assert.Equal(FindingDocument.Write(finding), FindingDocument.Write(read));
    }

    [Fact]
    public void Read_written_finding_keeps_measurements_and_scalar_records_equal()
    {
        var finding = TestFindings.Full();

        var read = FindingDocument.Read(FindingDocument.Write(finding));

        Assert.Equal(finding.Measurements, read.Measurements);
        Assert.Equivalent(finding.Evidence, read.Evidence, strict: true);
        Assert.Equal(finding.Remedy.Steps, read.Remedy.Steps);
        Assert.Equal(finding.VisualClasses[0].Regions, read.VisualClasses[0].Regions);
        Assert.Equal(finding.Provenance, read.Provenance);
        Assert.Equal(finding.CreateTime, read.CreateTime);
        Assert.Equal(TimeSpan.Zero, read.CreateTime.Offset);
        Assert.True(double.IsNegative(read.Measurements[0].Value!.Value));
    }

    [Fact]
    public void Read_small_finding_keeps_defaults()
    {
        var finding = TestFindings.Small(1);

        Assert.Equivalent(finding, FindingDocument.Read(FindingDocument.Write(finding)), strict: true);
    }

    [Fact]
    public void Read_document_without_a_newer_field_takes_its_default()
    {
        var document = JsonNode.Parse(FindingDocument.Write(TestFindings.Full()))!.AsObject();
        document.Remove("careAdvice");
        document.Remove("customerText");
        document.Remove("remedy");
        document["conditions"]![0]!.AsObject().Remove("displayName");

        var read = FindingDocument.Read(document.ToJsonString());

        Assert.Empty(read.CareAdvice);
        Assert.Equal("", read.CustomerText);
        Assert.Equal(Remedy.None, read.Remedy);
        Assert.Equal("", read.Conditions[0].DisplayName);
    }

    [Fact]
    public void Read_every_enum_value_comes_back()
    {
        foreach (var verdict in Enum.GetValues<Verdict>())
        {
            foreach (var timing in Enum.GetValues<TimingClass>())
            {
                var finding = TestFindings.Small(1) with { Verdict = verdict, Timing = new Timing(timing, [], []) };
                var read = FindingDocument.Read(FindingDocument.Write(finding));
                Assert.Equal((verdict, timing), (read.Verdict, read.Timing.Class));
            }
        }
    }

    [Theory]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("{\"name\":\"findings/a\"")]
    public void Read_what_is_no_finding_throws(string document) =>
        Assert.Throws<JsonException>(() => FindingDocument.Read(document));

    [Theory]
    [InlineData("""{"unit":"1","value":1}""")]
    [InlineData("""{"metric":"m","value":1}""")]
    [InlineData("""{"metric":"m","unit":"1"}""")]
    [InlineData("""{"metric":"m","unit":"1","value":1,"absentReason":"no-scale"}""")]
    [InlineData("""{"metric":"m","unit":"1","value":"NaN"}""")]
    [InlineData("""{"metric":"m","unit":"1","value":1e999}""")]
    [InlineData("7")]
    public void Read_measurement_that_breaks_its_own_rule_throws(string measurement)
    {
        var document = JsonNode.Parse(FindingDocument.Write(TestFindings.Full()))!;
        document["measurements"]![0] = JsonNode.Parse(measurement);

        Assert.Throws<JsonException>(() => FindingDocument.Read(document.ToJsonString()));
    }

    [Fact]
    public void Read_measurement_with_an_unknown_field_skips_it()
    {
        var document = JsonNode.Parse(FindingDocument.Write(TestFindings.Full()))!;
        document["measurements"]![1]!["newer"] = JsonNode.Parse("""{"a":[1,2]}""");

        Assert.Equal(TestFindings.Full().Measurements, FindingDocument.Read(document.ToJsonString()).Measurements);
    }

    [Fact]
    public void Write_not_finite_number_throws()
    {
        var finding = TestFindings.Small(1) with
        {
            Conditions = [new ConditionShare("ring_etch", double.NaN, [])],
        };

        Assert.Throws<ArgumentException>(() => FindingDocument.Write(finding));
    }
}
