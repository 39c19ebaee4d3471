using CoatScan.Imaging.Cards;

namespace CoatScan.ImagingTests.Cards;

public sealed class PatternCentersTests
{
    // The rule, word for word: the first center less than two of its modules away takes the crossing.
    [Theory]
    [InlineData(1, 40, 6)]
    [InlineData(2, 200, 30)]
    [InlineData(3, 1000, 3)]
    [InlineData(4, 1000, 90)]
    public void Add_gives_what_looking_at_every_center_gives(int seed, int side, double largestModule)
    {
        var random = new Random(seed);
        var centers = new PatternCenters();
        var plain = new List<PatternCenter>();
        for (var i = 0; i < 3000; i++)
        {
            var (x, y) = (side * random.NextDouble(), side * random.NextDouble());
            var module = Math.Max(0.3, largestModule * Math.Pow(random.NextDouble(), 3));
            centers.Add(x, y, module);
            var found = new PatternCenter(x, y, module, 1);
            var index = plain.FindIndex(known => known.DistanceTo(found) < 2 * known.Module);
            if (index < 0)
            {
                plain.Add(found);
                continue;
            }

            var known = plain[index];
            var share = 1.0 / (known.Crossings + 1);
            plain[index] = new PatternCenter(
                known.X + (share * (x - known.X)),
                known.Y + (share * (y - known.Y)),
                known.Module + (share * (module - known.Module)),
                known.Crossings + 1);
        }

        Assert.Equal(plain, centers.All);
    }
}
