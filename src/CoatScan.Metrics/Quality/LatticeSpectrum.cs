using System.Numerics;

namespace CoatScan.Metrics.Quality;

/// <summary>The spectrum of a square tile, and whether it has the peaks of a lattice.</summary>
internal sealed class LatticeSpectrum
{
    /// <summary>Side of a tile, pixels.</summary>
    internal const int SidePx = 128;

    // Coarser than this is shape, not lattice: 16 px.
    private const int LeastFrequency = 8;

    // The Hann window spreads a line over two steps to each side; from four steps on there is only what is beside it.
    private const int RingFrom = 4;
    private const int RingTo = 6;

    // Power of a peak over the largest in the ring: far above what edges and noise reach. No source.
    private const double LeastProminence = 6.0;

    // Amplitude of a peak, L*. No source.
    private const double LeastAmplitude = 0.25;

    // Sine of the least angle between the two directions.
    private const double LeastSine = 0.5;

    // How near to an axis and to a multiple of the blocks' frequency a peak may be theirs.
    private const double BlockReach = 1.5;

    private readonly double _blockFrequency;
    private readonly double[] _window = new double[SidePx];
    private readonly Complex[] _roots = new Complex[SidePx / 2];
    private readonly Complex[] _values = new Complex[SidePx * SidePx];
    private readonly Complex[] _line = new Complex[SidePx];
    private readonly double[] _power = new double[SidePx * SidePx];

    internal LatticeSpectrum(double originalPxPerPx)
    {
        _blockFrequency = SidePx * originalPxPerPx / 8.0;
        for (var i = 0; i < SidePx; i++)
        {
            _window[i] = 0.5 - (0.5 * Math.Cos(2.0 * Math.PI * (i + 0.5) / SidePx));
        }

        for (var i = 0; i < _roots.Length; i++)
        {
            _roots[i] = Complex.FromPolarCoordinates(1.0, -2.0 * Math.PI * i / SidePx);
        }
    }

    /// <summary>Whether the tile has sharp peaks in two directions.</summary>
    internal bool HasLattice(Plane lightness, int left, int top)
    {
        Transform(lightness, left, top);

        // The two-dimensional window has a mean of 1/4; a cosine of amplitude 1 has half of it at each of its two frequencies.
        const double whole = SidePx * SidePx / 8.0;
        const double leastPower = LeastAmplitude * LeastAmplitude * whole * whole;
        var peaks = new List<(int X, int Y)>();
        for (var y = 0; y <= SidePx / 2; y++)
        {
            for (var x = -(SidePx / 2) + 1; x < SidePx / 2; x++)
            {
                if (Power(x, y) >= leastPower
                    && (x * x) + (y * y) >= LeastFrequency * LeastFrequency
                    && !IsOfBlocks(x, y)
                    && StandsOut(x, y))
                {
                    if (peaks.Any(one => Math.Abs((one.X * y) - (one.Y * x))
                        > LeastSine * Math.Sqrt(((one.X * one.X) + (one.Y * one.Y)) * (double)((x * x) + (y * y)))))
                    {
                        return true;
                    }

                    peaks.Add((x, y));
                }
            }
        }

        return false;
    }

    private bool IsOfBlocks(int x, int y)
    {
        var (along, off) = Math.Abs(x) < Math.Abs(y) ? (Math.Abs(y), Math.Abs(x)) : (Math.Abs(x), Math.Abs(y));
        var harmonic = Math.Round(along / _blockFrequency);
        var offHarmonic = Math.Round(off / _blockFrequency) * _blockFrequency;
        return harmonic > 0
            && Math.Abs(along - (harmonic * _blockFrequency)) <= BlockReach
            && Math.Abs(off - offHarmonic) <= BlockReach;
    }

    private bool StandsOut(int x, int y)
    {
        var least = Power(x, y) / LeastProminence;
        for (var dy = -RingTo; dy <= RingTo; dy++)
        {
            for (var dx = -RingTo; dx <= RingTo; dx++)
            {
                var far = Math.Max(Math.Abs(dx), Math.Abs(dy));
                var power = far == 0 ? 0.0 : Power(x + dx, y + dy);
                if (far <= 2 ? power > Power(x, y) : far >= RingFrom && power > least)
                {
                    return false;
                }
            }
        }

        return true;
    }

    private double Power(int x, int y) => _power[((y & (SidePx - 1)) * SidePx) + (x & (SidePx - 1))];

    private void Transform(Plane lightness, int left, int top)
    {
        var mean = 0.0;
        for (var y = 0; y < SidePx; y++)
        {
            foreach (var value in lightness.Row(top + y).Slice(left, SidePx))
            {
                mean += value;
            }
        }

        mean /= SidePx * SidePx;
        for (var y = 0; y < SidePx; y++)
        {
            ReadOnlySpan<float> row = lightness.Row(top + y).Slice(left, SidePx);
            for (var x = 0; x < SidePx; x++)
            {
                _line[x] = (row[x] - mean) * _window[x] * _window[y];
            }

            Fourier(_line);
            _line.CopyTo(_values, y * SidePx);
        }

        for (var x = 0; x < SidePx; x++)
        {
            for (var y = 0; y < SidePx; y++)
            {
                _line[y] = _values[(y * SidePx) + x];
            }

            Fourier(_line);
            for (var y = 0; y < SidePx; y++)
            {
                var value = _line[y];
                _power[(y * SidePx) + x] = (value.Real * value.Real) + (value.Imaginary * value.Imaginary);
            }
        }
    }

    // Cooley and Tukey, 1965, radix 2, in place.
    private void Fourier(Complex[] line)
    {
        for (int i = 1, j = 0; i < SidePx; i++)
        {
            var bit = SidePx >> 1;
            for (; (j & bit) != 0; bit >>= 1)
            {
                j ^= bit;
            }

            j |= bit;
            if (i < j)
            {
                (line[i], line[j]) = (line[j], line[i]);
            }
        }

        for (var half = 1; half < SidePx; half *= 2)
        {
            var stride = SidePx / (2 * half);
            for (var start = 0; start < SidePx; start += 2 * half)
            {
                for (var k = 0; k < half; k++)
                {
                    var odd = line[start + half + k] * _roots[k * stride];
                    var even = line[start + k];
                    line[start + k] = even + odd;
                    line[start + half + k] = even - odd;
                }
            }
        }
    }
}
