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

    [Fact]
    public void LetGo_keeps_no_samples_for_the_next_photo()
    {
        // A length that no other test asks for.
        const int length = 977;
        var samples = new float[length];
        PlaneScope.Keep(samples);

        PlaneScope.LetGo();

        Assert.NotSame(samples, PlaneScope.Take(length));
    }
}
