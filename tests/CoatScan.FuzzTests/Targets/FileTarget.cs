using System.Text;
using CoatScan.Cli;
using CoatScan.Cli.Input;
using CoatScan.Cli.Json;
using CoatScan.Training.Evaluation;
using CoatScan.Training.Learning;

namespace CoatScan.FuzzTests.Targets;

/// <summary>Small files that commands read: one letter says which kind, the rest is the file.</summary>
internal sealed class FileTarget : IFuzzTarget, IDisposable
{
    private readonly string _path = Path.GetTempFileName();
    private readonly PhotoSampler _sampler;

    /// <param name="networkPath">The learned file, which the reader of labels looks at photos with.</param>
    public FileTarget(string networkPath) => _sampler = new PhotoSampler(networkPath);

    /// <inheritdoc/>
    public string Name => "file";

    /// <inheritdoc/>
    public IEnumerable<byte[]> Seeds =>
        ((string[])[
            "Eform.rings, form.domes # seen\nfilm.over_300_um\n",
            "F[{\"hour\":\"2026-05-01T08:00\",\"airC\":18,\"humidityPercent\":70,\"panelC\":17},{\"hour\":\"09\",\"airC\":20,\"humidityPercent\":60}]",
            "R{\"evidence\":[\"form.rings\"],\"statements\":[{\"evidence\":\"form.domes\",\"saidBy\":\"owner\"}],\"measurements\":{\"filmUm\":[118,125]," +
                "\"gloss60\":80,\"deltaE00\":1.5},\"appliedOn\":\"2024-02-29\",\"panel\":\"hood\",\"externalRef\":\"a\"}",
            "Lfile,label,group\nno-such-photo.jpg,chips,a\n",
            "Mchips=chips,scratches=swirl+single_scratch",
        ]).Select(Encoding.UTF8.GetBytes);

    /// <inheritdoc/>
    public byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus) => mutator.Change(mutator.Pick(corpus), corpus, firstByte: 1);

    /// <inheritdoc/>
    public Task<string> RunAsync(byte[] prepared)
    {
        var content = prepared.AsSpan(Math.Min(1, prepared.Length)).ToArray();
        File.WriteAllBytes(_path, content);
        var kind = prepared.Length == 0 ? 'E' : (char)prepared[0];
        try
        {
            return Task.FromResult($"{kind} {Read(kind, Encoding.UTF8.GetString(content))}");
        }
        catch (CommandException refusal) when (kind is 'E' or 'F')
        {
            return Task.FromResult($"{kind} {TextShape.Of(refusal.Message.Replace(_path, "FILE", StringComparison.Ordinal))}");
        }
        catch (Exception refusal) when (kind is 'L' && refusal is InvalidDataException or IOException)
        {
            return Task.FromResult($"{kind} {refusal.GetType().Name}");
        }
        catch (ArgumentException refusal) when (kind is 'M')
        {
            return Task.FromResult($"{kind} {TextShape.Of(refusal.Message)}");
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _sampler.Dispose();
        File.Delete(_path);
    }

    private string Read(char kind, string text)
    {
        switch (kind)
        {
            case 'F':
                ForecastFile.Read(_path);
                return "read";
            case 'R':
                var (facts, error) = RankCase.Read(text);
                return (facts, error) switch
                {
                    ({ }, null) => "read",
                    (null, { } wrong) => TextShape.Of(wrong.Message),
                    _ => throw new UndeclaredOutcomeException("A case gave both facts and an error, or neither."),
                };
            case 'L':
                LabelledPhotos.Read(Path.GetTempPath(), _path, new LabelMap(new Dictionary<string, string>()), _sampler, TextWriter.Null);
                return "read";
            case 'M':
                _ = new LabelMap(new Training.Arguments(["--map", text], ["map"]).Map("map"));
                return "read";
            default:
                EvidenceList.Read(_path);
                return "read";
        }
    }
}
