using System.Numerics;
using System.Runtime.InteropServices;

namespace CoatScan.DemoPanels.Surface;

/// <summary>
/// Random numbers of one panel: SplitMix64 (Steele, Lea, Flood, OOPSLA 2014). Own code, so that a seed means the same
/// panel whatever the runtime does inside its generator.
/// </summary>
internal sealed class PanelRandom(ulong seed)
{
    private ulong _state = seed;

    public ulong Next()
    {
        _state += 0x9E3779B97F4A7C15UL;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }

    /// <summary>An independent stream: what one part of a scene draws never shifts what another part draws.</summary>
    public PanelRandom Fork(ulong stream) => new(new PanelRandom(_state ^ (stream * 0xD1342543DE82EF95UL)).Next());

    public float Uniform() => (Next() >> 40) * (1f / (1 << 24));

    public float Uniform(float low, float high) => low + ((high - low) * Uniform());

    /// <summary>Uniform in the logarithm: sizes spread over decades.</summary>
    public float LogUniform(float low, float high) => low * MathF.Exp(MathF.Log(high / low) * Uniform());

    public float Gaussian() =>
        MathF.Sqrt(-2f * MathF.Log(1f - Uniform())) * MathF.Cos(2f * MathF.PI * Uniform());

    /// <summary>As many calls of <see cref="Gaussian"/> times a factor, several at a time; equal but for rounding.</summary>
    public void FillGaussian(Span<float> target, float factor)
    {
        const int Block = 256;
        Span<float> radial = stackalloc float[Block];
        Span<float> turn = stackalloc float[Block];
        var wideRadial = MemoryMarshal.Cast<float, Vector<float>>(radial);
        var wideTurn = MemoryMarshal.Cast<float, Vector<float>>(turn);
        for (var done = 0; done < target.Length; done += Block)
        {
            var part = target.Slice(done, Math.Min(Block, target.Length - done));
            for (var i = 0; i < part.Length; i++)
            {
                radial[i] = 1f - Uniform();
                turn[i] = Uniform();
            }

            for (var i = 0; i * Vector<float>.Count < part.Length; i++)
            {
                var radius = Vector.SquareRoot(Vector.Log(wideRadial[i]) * -2f);
                wideRadial[i] = radius * Vector.Cos(wideTurn[i] * (2f * MathF.PI)) * factor;
            }

            radial[..part.Length].CopyTo(part);
        }
    }

    public bool Chance(float probability) => Uniform() < probability;

    public int Whole(int low, int highExclusive) => low + (int)(Next() % (ulong)(highExclusive - low));

    public float Angle() => Uniform(0f, 2f * MathF.PI);

    public T Pick<T>(params ReadOnlySpan<T> choices) => choices[Whole(0, choices.Length)];

    /// <summary>An index with the given weights, which need not sum to 1.</summary>
    public int Weighted(params ReadOnlySpan<float> weights)
    {
        var total = 0f;
        foreach (var weight in weights)
        {
            total += weight;
        }

        var left = Uniform() * total;
        for (var i = 0; i < weights.Length - 1; i++)
        {
            left -= weights[i];
            if (left < 0f)
            {
                return i;
            }
        }

        return weights.Length - 1;
    }
}
