using System.Text;
using System.Text.RegularExpressions;

namespace CoatScan.ArchitectureTests;

public class RepositoryTests
{
    private const long MaximumModelBytes = 10_000_000;
    private const long MaximumPhotoBytes = 3_000_000;

    private static readonly string[] AllowedTopLevel =
    [
        ".ci", ".editorconfig", ".gitattributes", ".gitignore", "BannedSymbols.txt", "CoatScan.sln", "DEVELOPERS.md",
        "Directory.Build.props", "Directory.Packages.props", "LICENSE", "README.md", "demo", "deploy", "global.json",
        "models", "proto", "src", "tests",
    ];

    // Put together from pieces, so that this file does not hold what it looks for.
    private static readonly (string What, Regex Pattern)[] Forbidden =
    [
        ("a path of one machine", Words(@"(?<![\w.])/(", "wo", "rk|ro", @"ot|home/\w+|Us", @"ers/\w+)/")),
        ("a path of one machine", Words(@"[A-Za-z]:\\Us", @"ers\\")),
        ("a folder beside the repository", Words(@"(?<![\w-])sha", "red/")),
        ("a word of how this came about", Words("seed[ -]docu", "ment")),
        ("the host of a package registry", Words(@"nuget\.", @"org|npmjs\.", @"(org|com)|pypi\.", @"org|crates\.", "io")),
        ("the host of a package registry", Words(@"debian\.", @"org|proxy\.golang\.", @"org|yarnpkg\.", "com")),
        ("the host of an image registry", Words(@"mcr\.micro", @"soft|docker\.", @"(io|com)|ghcr\.", @"io|quay\.", @"io|gcr\.", "io")),
    ];

    [Fact]
    public void Files_are_found()
    {
        Assert.Contains("CoatScan.sln", Repository.Files());
        Assert.Contains("tests/CoatScan.ArchitectureTests/RepositoryTests.cs", Repository.Files());
        Assert.DoesNotContain(Repository.Files(), file => file.Contains("/obj/", StringComparison.Ordinal));
    }

    [Fact]
    public void No_file_names_a_machine_a_registry_or_how_it_came_about()
    {
        var found = new List<string>();
        foreach (var file in Repository.Files())
        {
            var bytes = File.ReadAllBytes(Repository.FullPath(file));
            if (IsText(bytes))
            {
                found.AddRange(Search(file, Encoding.UTF8.GetString(bytes)));
            }
        }

        Assert.Empty(found);
    }

    [Theory]
    [InlineData("cd /wo@rk/main")]
    [InlineData("see \"/ro@ot/.nuget\"")]
    [InlineData("/ho@me/somebody/photos")]
    [InlineData("C:\\Us@ers\\somebody")]
    [InlineData("in sha@red/DESIGN.md")]
    [InlineData("the Seed docu@ment")]
    [InlineData("https://api.nuget.or@g/v3")]
    [InlineData("registry.npmjs.or@g")]
    [InlineData("FROM mcr.micro@soft.com/dotnet/sdk")]
    [InlineData("docker.i@o/library")]
    public void Search_finds_what_is_forbidden(string text) => Assert.NotEmpty(Search("x", text.Replace("@", "", StringComparison.Ordinal)));

    [Theory]
    [InlineData("https://learn.microsoft.com/dotnet")]
    [InlineData("body/paint-work/panels")]
    [InlineData("/data/findings.db")]
    [InlineData("a shared contract; everybody shares")]
    [InlineData("a seed of 7 and a document")]
    public void Search_passes_what_is_not(string text) => Assert.Empty(Search("x", text));

    [Fact]
    public void Top_level_has_only_what_belongs_there() =>
        Assert.Empty(Repository.TopLevel().Except(AllowedTopLevel));

    [Fact]
    public void Classifier_stays_small() => Assert.InRange(
        Repository.SizeOf(Repository.Files().Where(file => file.StartsWith("models/classifier/", StringComparison.Ordinal))),
        0,
        MaximumModelBytes);

    [Fact]
    public void Photos_stay_few_and_small() => Assert.InRange(
        Repository.SizeOf(Repository.Files().Where(file => Path.GetExtension(file) is ".jpg" or ".jpeg" or ".png")),
        0,
        MaximumPhotoBytes);

    [Fact]
    public void Text_ends_its_lines_with_line_feeds()
    {
        var found = Repository.Files()
            .Where(file => Path.GetExtension(file) is ".cs" or ".md" or ".yaml" or ".proto" or ".props" or ".csproj" or ".json")
            .Where(file => File.ReadAllBytes(Repository.FullPath(file)).Contains((byte)'\r'));

        Assert.Empty(found);
    }

    private static IEnumerable<string> Search(string file, string text) =>
        from rule in Forbidden
        from match in rule.Pattern.Matches(text)
        select $"{file}: {rule.What}: {match.Value}";

    private static Regex Words(params string[] pieces) =>
        new(string.Concat(pieces), RegexOptions.IgnoreCase | RegexOptions.CultureInvariant, TimeSpan.FromSeconds(10));

    private static bool IsText(byte[] bytes) => !bytes.AsSpan(0, Math.Min(bytes.Length, 8_000)).Contains((byte)0);
}
