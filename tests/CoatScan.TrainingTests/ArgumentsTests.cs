using CoatScan.Training;

namespace CoatScan.TrainingTests;

public sealed class ArgumentsTests
{
    [Fact]
    public void Arguments_reads_pairs_numbers_and_maps()
    {
        var arguments = new Arguments(["--out", "x", "--count", "7", "--map", "a=b,c=d"], ["out", "count", "map"]);

        Assert.Equal("x", arguments.Required("out"));
        Assert.Equal(7, arguments.Whole("count", 1));
        Assert.Equal("d", arguments.Map("map")["c"]);
        Assert.Null(arguments.Optional("else"));
    }

    [Theory]
    [InlineData("--unknown", "1")]
    [InlineData("out")]
    [InlineData("--out")]
    public void Arguments_of_a_wrong_form_are_refused(params string[] words) =>
        Assert.Throws<ArgumentException>(() => new Arguments(words, ["out"]));

    [Fact]
    public void Required_names_what_is_missing() =>
        Assert.Contains(
            "--out", Assert.Throws<ArgumentException>(() => new Arguments([], ["out"]).Required("out")).Message, StringComparison.Ordinal);

    [Fact]
    public void Whole_refuses_a_word() =>
        Assert.Throws<ArgumentException>(() => new Arguments(["--n", "many"], ["n"]).Whole("n", 1));
}
