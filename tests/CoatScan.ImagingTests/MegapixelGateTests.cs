using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests;

public sealed class MegapixelGateTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Enter_waits_for_room_in_the_order_of_coming()
    {
        var gate = new MegapixelGate(100);
        var first = gate.Enter(60, Token);
        var large = Task.Run(() => gate.Enter(60, Token), Token);
        await WaitForWaitersAsync(gate, 1);

        // There would be room for it, but it is not its turn.
        var small = Task.Run(() => gate.Enter(10, Token), Token);
        await WaitForWaitersAsync(gate, 2);
        Assert.Equal(60, gate.InFlightMegapixels);
        Assert.False(large.IsCompleted);
        Assert.False(small.IsCompleted);

        first.Dispose();
        first.Dispose();
        var places = await Task.WhenAll(large, small);

        Assert.Equal(70, gate.InFlightMegapixels);
        Assert.All(places, place => place.Dispose());
        Assert.Equal(0, gate.InFlightMegapixels);
    }

    [Fact]
    public async Task Enter_that_gives_up_lets_the_next_one_in()
    {
        var gate = new MegapixelGate(100);
        using var first = gate.Enter(60, Token);
        using var stop = new CancellationTokenSource();
        var large = Task.Run(() => gate.Enter(60, stop.Token), Token);
        await WaitForWaitersAsync(gate, 1);
        var small = Task.Run(() => gate.Enter(10, Token), Token);
        await WaitForWaitersAsync(gate, 2);

        await stop.CancelAsync();

        await Assert.ThrowsAsync<OperationCanceledException>(() => large);
        (await small).Dispose();
        Assert.Equal(60, gate.InFlightMegapixels);
    }

    [Fact]
    public void Enter_photo_above_the_capacity_is_let_in_alone()
    {
        var gate = new MegapixelGate(10);

        using (gate.Enter(500, Token))
        {
            Assert.Equal(10, gate.InFlightMegapixels);
        }

        Assert.Equal(0, gate.InFlightMegapixels);
    }

    [Fact]
    public async Task Enter_many_at_once_never_go_over_the_capacity_and_all_leave()
    {
        var gate = new MegapixelGate(25);
        var most = 0.0;

        await Task.WhenAll(Enumerable.Range(1, 40).Select(number => Task.Run(
            () =>
            {
                for (var i = 0; i < 50; i++)
                {
                    using var place = gate.Enter((number % 12) + 1, Token);
                    InterlockedMax(gate.InFlightMegapixels);
                }
            },
            Token)));

        Assert.InRange(most, 1, 25);
        Assert.Equal(0, gate.InFlightMegapixels);

        void InterlockedMax(double value)
        {
            lock (gate)
            {
                most = Math.Max(most, value);
            }
        }
    }

    [Fact]
    public void Decode_gives_its_room_back_with_the_pixels()
    {
        var gate = new MegapixelGate(100);
        var decoder = new GuardedPhotoDecoder(new ImagingOptions(), gate);

        using (decoder.Decode(PhotoEncoder.EncodeJpeg(new byte[3 * 200 * 100], 200, 100, 90), Token))
        {
            Assert.Equal(0.02, gate.InFlightMegapixels, 9);
        }

        Assert.Equal(0, gate.InFlightMegapixels);
    }

    [Fact]
    public void Decode_that_fails_while_pixels_are_made_gives_its_room_back()
    {
        var gate = new MegapixelGate(100);
        var decoder = new GuardedPhotoDecoder(new ImagingOptions(), gate);

        // That a pixel is transparent is found only when all are decoded.
        byte[] png = [.. PngBytes.Signature, .. PngBytes.Header(2, 1, 8, 6), .. PngBytes.Data([0, 1, 2, 3, 255, 4, 5, 6, 0]), .. PngBytes.End];
        var refusal = Assert.Throws<CoatScanException>(() => decoder.Decode(png, Token));

        Assert.Contains("transparent", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(0, gate.InFlightMegapixels);
    }

    private static async Task WaitForWaitersAsync(MegapixelGate gate, int count)
    {
        while (gate.WaitingCount < count)
        {
            await Task.Delay(5, Token);
        }
    }
}
