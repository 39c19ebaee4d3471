using CoatScan.FuzzTests.Pictures;
using CoatScan.Imaging;

namespace CoatScan.FuzzTests.Targets;

/// <summary>Pictures that no panel shows, to find what of the measuring takes too long: a recipe of a few bytes is drawn and judged.</summary>
internal sealed class PictureTarget(PhotoTarget photos) : IFuzzTarget
{
    /// <inheritdoc/>
    public string Name => "picture";

    /// <inheritdoc/>
    public IEnumerable<byte[]> Seeds =>
        from kind in Enumerable.Range(0, OddPicture.Kinds)
        from size in new byte[] { 60, 160 }
        select new byte[] { (byte)kind, size, 3, 40, 200, 1, 0, 0 };

    /// <inheritdoc/>
    public byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus)
    {
        var recipe = new byte[OddPicture.RecipeBytes];
        mutator.Random.NextBytes(recipe);
        if (mutator.Random.Next(2) == 0)
        {
            // Near one that is known to be odd.
            var known = mutator.Pick(corpus);
            var change = mutator.Random.Next(recipe.Length);
            for (var i = 0; i < recipe.Length; i++)
            {
                recipe[i] = i == change || i >= known.Length ? recipe[i] : known[i];
            }
        }

        return recipe;
    }

    /// <inheritdoc/>
    public byte[] Prepare(byte[] input)
    {
        var (rgb, width, height) = OddPicture.Draw(input);
        return PhotoEncoder.EncodeJpeg(rgb, width, height, 92);
    }

    /// <inheritdoc/>
    public Task<string> RunAsync(byte[] prepared) => photos.RunAsync(prepared);
}
