using CoatScan.Metrics;

namespace CoatScan.MetricsTests;

public sealed class PlaneScopeTests
{
    [Fact]
    public void Rent_within_one_scope_never_lends_a_plane_twice()
    {
        using var scope = new PlaneScope();
        var first = scope.Rent(31, 7);
        var second = scope.Rent(31, 7);
        Assert.NotSame(first.Values, second.Values);

        scope.Return(first);
        var third = scope.Rent(31, 7);
        Assert.NotSame(second.Values, third.Values);
    }

    [Fact]
    public void Return_foreign_plane_is_not_taken()
    {
        using var scope = new PlaneScope();
        var own = new Plane(13, 3);

        scope.Return(own);

        Assert.NotSame(own.Values, scope.Rent(13, 3).Values);
    }
}
