namespace CoatScan.Imaging.Cards;

/// <summary>One line of tones, and where it shows dark and light as through the middle of a finder pattern.</summary>
/// <remarks>
/// A line is cut into dark and light by its own turns: dark begins where the tone has fallen by a share of what it fell from. So a
/// shade on the paper, or something bright beside it, moves no border, as it does where an average of the surroundings decides.
/// </remarks>
internal sealed class ToneLine(int longest)
{
    // Least fall or rise that is a turn: a part of the lighter tone and some codes of noise. No source.
    private const int ShareOfTone = 6;
    private const int LeastTurn = 12;

    // How far a run may be off its share, in modules. No source.
    private const double RunTolerance = 0.6;

    private readonly int[] _at = new int[longest + 2];
    private readonly byte[] _tone = new byte[longest + 2];
    private readonly byte[] _line = new byte[longest];
    private int _length;
    private int _turns;
    private bool _isFirstDark;

    /// <summary>Takes a line and finds its turns.</summary>
    public void Read(ReadOnlySpan<byte> line)
    {
        line.CopyTo(_line);
        _length = line.Length;
        _turns = 0;
        int low = 0;
        int high = 0;
        int x = 1;

        // Until the first turn it is open which way the line goes.
        for (; x < line.Length; x++)
        {
            low = line[x] < line[low] ? x : low;
            high = line[x] > line[high] ? x : high;
            if (line[high] - line[low] > Turn(line[high]))
            {
                break;
            }
        }

        if (x >= line.Length)
        {
            return;
        }

        _isFirstDark = low < high;
        Add(line, _isFirstDark ? low : high);
        bool isRising = _isFirstDark;
        int best = _isFirstDark ? high : low;
        int bestTone = line[best];
        for (x++; x < line.Length; x++)
        {
            int tone = line[x];
            if (isRising)
            {
                if (tone > bestTone)
                {
                    (best, bestTone) = (x, tone);
                }
                else if (bestTone - tone > Turn(bestTone))
                {
                    Add(line, best);
                    (best, bestTone, isRising) = (x, tone, false);
                }
            }
            else if (tone < bestTone)
            {
                (best, bestTone) = (x, tone);
            }
            else if (tone - bestTone > Turn(tone))
            {
                Add(line, best);
                (best, bestTone, isRising) = (x, tone, true);
            }
        }

        Add(line, best);
    }

    /// <summary>Middles and lengths of what shows dark and light 1 : 1 : 3 : 1 : 1, pixels; 0 is the edge of the first.</summary>
    public IEnumerable<(double Middle, double Length)> Patterns()
    {
        for (int first = _isFirstDark ? 0 : 1; first + 4 < _turns; first += 2)
        {
            double left = Border(first, first + 1);
            double from = Border(first + 1, first + 2);
            double to = Border(first + 2, first + 3);
            double right = Border(first + 3, first + 4);
            double module = (right - left) / 5;
            double most = RunTolerance * module;
            if (!(Math.Abs(from - left - module) < most
                && Math.Abs(to - from - (3 * module)) < 3 * most
                && Math.Abs(right - to - module) < most))
            {
                continue;
            }

            // The outer borders by the light inside: what is beside the pattern may lie in other light.
            double start = Outer(first, first + 1, -1);
            double end = Outer(first + 4, first + 3, 1);
            module = (end - start) / 7;
            most = RunTolerance * module;
            if (module >= 1
                && Math.Abs(left - start - module) < most
                && Math.Abs(from - left - module) < most
                && Math.Abs(to - from - (3 * module)) < 3 * most
                && Math.Abs(right - to - module) < most
                && Math.Abs(end - right - module) < most)
            {
                yield return ((from + to) / 2, end - start);
            }
        }
    }

    private static int Turn(int tone) => LeastTurn + (tone / ShareOfTone);

    private void Add(ReadOnlySpan<byte> line, int x)
    {
        _at[_turns] = x;
        _tone[_turns] = line[x];
        _turns++;
    }

    // Where the line passes the middle between two turns, to a part of a pixel; a tone stands at the middle of its pixel.
    private double Border(int turn, int next)
    {
        int middle = _tone[turn] + _tone[next];
        bool isDark = _tone[turn] < _tone[next];
        int x = _at[turn] + 1;
        while (x < _at[next] && 2 * _line[x] < middle == isDark)
        {
            x++;
        }

        return Between(x - 1, x, middle);
    }

    private double Outer(int dark, int light, int step)
    {
        int middle = _tone[dark] + _tone[light];
        int x = _at[dark];
        while (x >= 0 && x < _length && 2 * _line[x] < middle)
        {
            x += step;
        }

        return x < 0 ? 0 : x == _length ? _length : Between(x - step, x, middle);
    }

    private double Between(int x, int next, int doubleTone)
    {
        int change = _line[next] - _line[x];
        double share = change == 0 ? 0.5 : ((doubleTone / 2.0) - _line[x]) / change;
        return x + 0.5 + ((next - x) * Math.Clamp(share, 0, 1));
    }
}
