using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Service.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace CoatScan.FunctionalTests.Server;

public sealed class IdleMemoryTests(SharedServer shared)
{
    [Fact]
    public void Service_gives_memory_back_when_it_rests()
    {
        var rest = Assert.Single(shared.Server.Application.Services.GetServices<IHostedService>().OfType<IdleMemory>());

        Assert.False(rest.ExecuteTask!.IsCompleted);
    }

    [Fact]
    public void C_library_of_this_machine_takes_what_is_asked_of_it()
    {
        Assert.Null(Record.Exception(NativeHeap.KeepLittle));
        Assert.Null(Record.Exception(NativeHeap.Trim));
    }
}
