using System.IO.Compression;
using System.Text.Json.Nodes;
using CoatScan.Classification;
using Microsoft.ML;

namespace CoatScan.ClassificationTests;

public sealed class ModelFolderTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-model-").FullName;

    public ModelFolderTests()
    {
        foreach (var name in new[] { ModelFiles.Card, ModelFiles.Calibration, ModelFiles.Photo, ModelFiles.Network })
        {
            File.Copy(Path.Combine(ClassifierFixture.ModelFolderPath, name), Path.Combine(_folder, name));
        }
    }

    [Fact]
    public void Load_of_the_shipped_model_passes() => Assert.Equal(VisualClasses.All, Load().Card.Classes);

    [Theory]
    [InlineData(ModelFiles.Card)]
    [InlineData(ModelFiles.Calibration)]
    [InlineData(ModelFiles.Photo)]
    [InlineData(ModelFiles.Network)]
    public void Load_without_a_part_names_it(string name)
    {
        File.Delete(Path.Combine(_folder, name));

        AssertRefused(name);
    }

    [Fact]
    public void Load_of_a_changed_calibration_names_the_digest()
    {
        Replace(ModelFiles.Calibration, "\"notAPanelThreshold\": ", "\"notAPanelThreshold\": 9");

        AssertRefused("digest");
    }

    [Fact]
    public void Load_of_a_zip_with_another_entry_names_the_digest()
    {
        using (var zip = ZipFile.Open(Path.Combine(_folder, ModelFiles.Photo), ZipArchiveMode.Update))
        {
            using var stream = zip.CreateEntry("more").Open();
            stream.WriteByte(1);
        }

        AssertRefused("digest");
    }

    [Fact]
    public void Load_of_a_part_that_is_no_zip_names_the_digest()
    {
        File.WriteAllText(Path.Combine(_folder, ModelFiles.Photo), "no zip");

        AssertRefused("digest");
    }

    [Fact]
    public void Load_of_a_model_with_other_classes_says_so()
    {
        Replace(ModelFiles.Card, "\"sound\"", "\"unsound\"");

        AssertRefused("visual classes");
    }

    [Fact]
    public void Load_of_a_card_without_a_check_for_every_class_says_so()
    {
        var path = Path.Combine(_folder, ModelFiles.Card);
        var card = JsonNode.Parse(File.ReadAllText(path))!;
        card["checks"]!.AsArray().RemoveAt(0);
        File.WriteAllText(path, card.ToJsonString());

        AssertRefused("one check");
    }

    [Fact]
    public void Load_with_another_network_names_the_digest()
    {
        File.AppendAllText(Path.Combine(_folder, ModelFiles.Network), "another network");

        AssertRefused("network");
    }

    [Fact]
    public void Load_of_a_malformed_card_says_so()
    {
        File.WriteAllText(Path.Combine(_folder, ModelFiles.Card), "{");

        AssertRefused("JSON");
    }

    [Fact]
    public void Load_of_the_classifier_refuses_like_the_folder()
    {
        File.Delete(Path.Combine(_folder, ModelFiles.Card));

        Assert.Throws<InvalidDataException>(() => VisualClassifier.Load(_folder));
    }

    [Fact]
    public void Digest_does_not_depend_on_time_stamps_or_order_of_zip_entries()
    {
        var before = ModelFiles.Digest(_folder);
        var path = Path.Combine(_folder, ModelFiles.Photo);
        var entries = new List<(string Name, byte[] Bytes)>();
        using (var zip = ZipFile.OpenRead(path))
        {
            foreach (var entry in zip.Entries)
            {
                using var stream = entry.Open();
                using var bytes = new MemoryStream();
                stream.CopyTo(bytes);
                entries.Add((entry.FullName, bytes.ToArray()));
            }
        }

        File.Delete(path);
        using (var zip = ZipFile.Open(path, ZipArchiveMode.Create))
        {
            foreach (var (name, bytes) in Enumerable.Reverse(entries))
            {
                var entry = zip.CreateEntry(name);
                entry.LastWriteTime = new DateTimeOffset(2001, 1, 1, 0, 0, 0, TimeSpan.Zero);
                using var stream = entry.Open();
                stream.Write(bytes);
            }
        }

        Assert.Equal(before, ModelFiles.Digest(_folder));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private ModelFolder Load() => ModelFolder.Load(new MLContext(1), _folder);

    private void AssertRefused(string word) =>
        Assert.Contains(word, Assert.Throws<InvalidDataException>(Load).Message, StringComparison.Ordinal);

    private void Replace(string name, string from, string to)
    {
        var path = Path.Combine(_folder, name);
        var text = File.ReadAllText(path);
        Assert.Contains(from, text, StringComparison.Ordinal);
        File.WriteAllText(path, text.Replace(from, to, StringComparison.Ordinal));
    }
}
