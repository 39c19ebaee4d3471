namespace CoatScan.Metrics.Marks;

/// <summary>Tells marks in straight rows of equal size and spacing, as rivets, screws and holes of the body lie, from faults of the paint.</summary>
/// <remarks>
/// <para>A row has at least five marks of one sign. From one to the next the diameter changes by at most a half, and each lies where the two before it
/// point, within 15 % of the spacing, so that a row seen at an angle is followed too; one in five may be missing. Faint and small marks are not looked at
/// (<see cref="SpotMetrics"/> says which are doubtful). Among many marks such rows occur by chance: how many of this length and spacing
/// are to be expected, if the marks alike lay at random, must be under one in a hundred panels.</para>
/// <para>A row that crosses others at most of its places is part of a lattice, which is a pattern of the panel's spots
/// (<see cref="SpotPattern"/>), and stays. With more than 400 clear marks nothing is set apart.</para>
/// <para>Fasteners that stand alone: <see cref="FastenerHeads"/>; marks on a seam: <see cref="LineFragments"/>. Not told apart: letters. Cost: by the square of the number of clear marks. Source: our own.</para>
/// </remarks>
internal static class FastenerRows
{
    private const int LeastInRow = 5;
    private const int LeastSeenOverMissing = 4;
    private const int MostMarks = 400;
    private const int Neighbors = 12;
    private const double LargestSizeRatio = 1.5;
    private const double LeastSpacingOverDiameter = 1.5;
    private const double Tolerance = 0.15;
    private const double MostExpected = 0.01;

    /// <summary>Splits the marks of a panel of so many pixels into faults and fasteners; both keep their order.</summary>
    internal static (List<Mark> Faults, List<Mark> Fasteners) Split(List<Mark> marks, double panelPx)
    {
        var clear = marks.FindAll(mark => !SpotMetrics.IsDoubtful(mark));
        if (clear.Count < LeastInRow || clear.Count > MostMarks)
        {
            return (marks, []);
        }

        var rows = Rows(clear, panelPx);
        var inRow = new HashSet<Mark>(ReferenceEqualityComparer.Instance);
        foreach (var row in rows.Where(row => !IsLattice(row, rows)))
        {
            inRow.UnionWith(row.Select(i => clear[i]));
        }

        return (marks.FindAll(mark => !inRow.Contains(mark)), marks.FindAll(inRow.Contains));
    }

    private static List<List<int>> Rows(List<Mark> marks, double panelPx)
    {
        var rows = new List<List<int>>();
        for (var first = 0; first < marks.Count; first++)
        {
            foreach (var second in Nearest(marks, first))
            {
                // A row is followed from its end: where one more lies before it, that one begins it.
                var (stepX, stepY) = Step(marks[second], marks[first]);
                if (At(marks, first, stepX, stepY) < 0)
                {
                    var row = Follow(marks, first, second);
                    if (row.Count >= LeastInRow && first < row[^1] && !IsChance(row, marks, panelPx))
                    {
                        rows.Add(row);
                    }
                }
            }
        }

        return rows;
    }

    // The nearest first.
    private static List<int> Nearest(List<Mark> marks, int index)
    {
        var found = new List<(double Distance, int Index)>();
        var least = LeastSpacingOverDiameter * marks[index].DiameterPx;
        for (var i = 0; i < marks.Count; i++)
        {
            var distance = Distance(marks[i], marks[index]);
            if (i != index && distance >= least && AreAlike(marks[i], marks[index])
                && (found.Count < Neighbors || distance < found[^1].Distance))
            {
                var at = found.FindIndex(other => distance < other.Distance);
                found.Insert(at < 0 ? found.Count : at, (distance, i));
                found.RemoveRange(Math.Min(found.Count, Neighbors), Math.Max(0, found.Count - Neighbors));
            }
        }

        return found.ConvertAll(one => one.Index);
    }

    // One that was not seen, or not clearly, may be missing between two, but not often.
    private static List<int> Follow(List<Mark> marks, int first, int second)
    {
        var row = new List<int> { first, second };
        var missing = 0;
        var (stepX, stepY) = Step(marks[first], marks[second]);
        while (true)
        {
            var (next, places) = (At(marks, row[^1], stepX, stepY), 1);
            if (next < 0)
            {
                (next, places) = (At(marks, row[^1], 2.0 * stepX, 2.0 * stepY), 2);
            }

            if (next < 0 || row.Contains(next))
            {
                return LeastSeenOverMissing * missing <= row.Count ? row : [];
            }

            missing += places - 1;

            (stepX, stepY) = Step(marks[row[^1]], marks[next]);
            (stepX, stepY) = (stepX / places, stepY / places);
            row.Add(next);
        }
    }

    private static (double X, double Y) Step(Mark one, Mark two) => (two.CenterXPx - one.CenterXPx, two.CenterYPx - one.CenterYPx);

    // Index of the mark at a place from another; -1 for none.
    private static int At(List<Mark> marks, int from, double stepX, double stepY)
    {
        var (best, nearest) = (-1, Tolerance * Math.Sqrt((stepX * stepX) + (stepY * stepY)));
        for (var i = 0; i < marks.Count; i++)
        {
            // Most marks lie too far off along one axis alone.
            var (dx, dy) = Step(marks[from], marks[i]);
            if (Math.Abs(dx - stepX) > nearest || Math.Abs(dy - stepY) > nearest)
            {
                continue;
            }

            var distance = Math.Sqrt(((dx - stepX) * (dx - stepX)) + ((dy - stepY) * (dy - stepY)));
            if (distance <= nearest && i != from && AreAlike(marks[i], marks[from]))
            {
                (best, nearest) = (i, distance);
            }
        }

        return best;
    }

    // Each mark after the second lies in a disk about one of two places; so many pairs could have begun a row.
    private static bool IsChance(List<int> row, List<Mark> marks, double panelPx)
    {
        var reach = Tolerance * Distance(marks[row[0]], marks[row[^1]]) / (row.Count - 1);
        var alike = marks.Count(mark => AreAlike(mark, marks[row[row.Count / 2]]));
        var chance = 2.0 * alike * Math.PI * reach * reach / panelPx;
        return marks.Count * Neighbors * Math.Pow(chance, row.Count - 2) > MostExpected;
    }

    private static bool AreAlike(Mark one, Mark two) =>
        Math.Max(one.DiameterPx, two.DiameterPx) <= LargestSizeRatio * Math.Min(one.DiameterPx, two.DiameterPx)
        && Math.Sign(one.ContrastLightness) == Math.Sign(two.ContrastLightness);

    private static bool IsLattice(List<int> row, List<List<int>> rows)
    {
        var crossed = row.Count(mark => rows.Exists(other => other.Contains(mark) && Crosses(row, other)));
        return 2 * crossed > row.Count;
    }

    // Rows that share more than one mark run the same way.
    private static bool Crosses(List<int> row, List<int> other) => row.Count(other.Contains) == 1;

    private static double Distance(Mark one, Mark two)
    {
        var (dx, dy) = (one.CenterXPx - two.CenterXPx, one.CenterYPx - two.CenterYPx);
        return Math.Sqrt((dx * dx) + (dy * dy));
    }
}
