using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class TileGridTests
{
    [Theory]
    [InlineData(900, 900)]
    [InlineData(1200, 900)]
    [InlineData(301, 997)]
    [InlineData(1, 1)]
    public void Tiles_are_square_inside_and_cover_the_longer_side(int width, int height)
    {
        var tiles = TileGrid.Tiles(width, height);

        Assert.Equal(TileGrid.Count, tiles.Count);
        Assert.All(tiles, tile =>
        {
            Assert.Equal(tile.Width, tile.Height);
            Assert.InRange(tile.X, 0, width - tile.Width);
            Assert.InRange(tile.Y, 0, height - tile.Height);
        });
        Assert.Equal(width, tiles.Max(tile => tile.X + tile.Width));
        Assert.Equal(height, tiles.Max(tile => tile.Y + tile.Height));
    }

    [Fact]
    public void Tiles_of_no_picture_are_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TileGrid.Tiles(0, 10));
}
