using CoatScan.Client;
using CoatScan.Findings;
using CoatScan.Service.Endpoints;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Clients;

/// <summary>What our client makes of refusals as our service writes them.</summary>
public sealed class CallExceptionTests
{
    [Theory]
    [InlineData(ErrorReason.ServerBusy, true)]
    [InlineData(ErrorReason.Draining, true)]
    [InlineData(ErrorReason.StorageUnavailable, true)]
    [InlineData(ErrorReason.QuotaExceeded, false)]
    [InlineData(ErrorReason.DeadlineTooShort, false)]
    [InlineData(ErrorReason.PhotoUnreadable, false)]
    public void Refusal_is_worth_another_try_only_where_that_can_help(ErrorReason reason, bool isTransient)
    {
        var failure = RichErrors.ToException(RichErrors.ToStatus(new CoatScanException(reason, "No.")));

        var error = CoatScanCallException.Of(failure);

        Assert.Equal(isTransient, error.IsTransient);
        Assert.Equal(isTransient, error.RetryDelay is not null);
    }

    [Fact]
    public void Quota_that_fills_again_by_itself_is_worth_another_try_after_its_delay()
    {
        var refusal = new CoatScanException(
            ErrorReason.QuotaExceeded, "No.", metadata: new Dictionary<string, string> { ["retry_after_ms"] = "1500" });

        var error = CoatScanCallException.Of(RichErrors.ToException(RichErrors.ToStatus(refusal)));

        Assert.Equal((true, TimeSpan.FromSeconds(1.5)), (error.IsTransient, error.RetryDelay));
    }

    [Fact]
    public void Server_that_does_not_answer_is_worth_another_try() =>
        Assert.True(CoatScanCallException.Of(new RpcException(new Status(StatusCode.Unavailable, "gone"))).IsTransient);
}
