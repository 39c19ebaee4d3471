using CoatScan.Classification;
using CoatScan.Service.Hosting;

namespace CoatScan.FunctionalTests.Server;

public sealed class PreloadingTests
{
    [Fact]
    public async Task Dispose_waits_for_what_is_being_read()
    {
        using var released = new ManualResetEventSlim();
        var preloading = new Preloading(new SlowProvider(released));

        var disposing = preloading.DisposeAsync().AsTask();
        var early = await Task.WhenAny(disposing, Task.Delay(200, TestContext.Current.CancellationToken));
        released.Set();
        await disposing;

        Assert.NotSame(disposing, early);
    }

    [Fact]
    public async Task Dispose_leaves_what_is_wrong_to_who_asks_next()
    {
        var preloading = new Preloading(new BrokenProvider());

        Assert.Null(await Record.ExceptionAsync(() => preloading.DisposeAsync().AsTask()));
    }

    private sealed class SlowProvider(ManualResetEventSlim released) : IServiceProvider
    {
        public object? GetService(Type serviceType)
        {
            if (serviceType == typeof(VisualClassifier))
            {
                released.Wait();
            }

            return null;
        }
    }

    private sealed class BrokenProvider : IServiceProvider
    {
        public object? GetService(Type serviceType) => throw new InvalidDataException("The model is damaged.");
    }
}
