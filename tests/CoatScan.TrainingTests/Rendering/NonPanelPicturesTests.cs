using CoatScan.Training.Rendering.NonPanels;

namespace CoatScan.TrainingTests.Rendering;

public sealed class NonPanelPicturesTests
{
    [Fact]
    public void Draw_repeats_bit_for_bit_and_never_draws_one_picture_twice()
    {
        var pictures = Enumerable.Range(0, 2 * NonPanelPictures.KindNames.Count).Select(NonPanelPictures.Draw).ToArray();

        Assert.Equal(NonPanelPictures.KindNames, pictures.Select(picture => picture.Kind).Distinct());
        Assert.Equal(pictures.Length, pictures.Select(picture => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(picture.Jpeg))).Distinct().Count());
        Assert.Equal(pictures[7].Jpeg, NonPanelPictures.Draw(7).Jpeg);
    }
}
