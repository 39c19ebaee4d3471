namespace CoatScan.Metrics.Lines;

/// <summary>What the lines of a plane are like.</summary>
/// <param name="LengthPx">Summed length, pixels of the plane measured, 0 or more.</param>
/// <param name="Branches">Pieces of line between ends and junctions; long ones count in pieces of about 48 px.</param>
/// <param name="Junctions">Places where lines meet or cross.</param>
/// <param name="Coherence">Agreement of direction between neighboring pieces, [0, 1]: 1 parallel, 0 every way; null where no
/// place has two pieces.</param>
/// <param name="Straightness">Chord over length of the pieces, [0, 1]; 0 without lines.</param>
internal sealed record LineReading(
    double LengthPx, int Branches, int Junctions, double? Coherence, double Straightness)
{
    private const int TilesPerSide = 3;

    /// <summary>Coherence times straightness, lowered by junctions, [0, 1]: parallel scratches high, crack networks low.</summary>
    internal double? Regularity => Coherence * Straightness / (1.0 + ((double)Junctions / Math.Max(Branches, 1)));

    internal static LineReading Of(LineNetwork network, int width, int height)
    {
        var tiles = new DirectionSum[TilesPerSide * TilesPerSide];
        var (length, chord) = (0.0, 0.0);
        foreach (var branch in network.Branches)
        {
            length += branch.LengthPx;
            chord += Math.Min(branch.ChordPx, branch.LengthPx);
            var column = Math.Min(branch.MiddleX * TilesPerSide / width, TilesPerSide - 1);
            var row = Math.Min(branch.MiddleY * TilesPerSide / height, TilesPerSide - 1);
            tiles[(row * TilesPerSide) + column].Add(branch.ChordX, branch.ChordY);
        }

        return new(
            length + network.JunctionPixels, network.Branches.Count, network.Junctions, CoherenceOf(tiles), length > 0.0 ? chord / length : 0.0);
    }

    private static double? CoherenceOf(DirectionSum[] tiles)
    {
        var (sum, weight) = (0.0, 0.0);
        foreach (var tile in tiles)
        {
            if (tile.PairAgreement is { } agreement)
            {
                sum += tile.Length * Math.Sqrt(Math.Max(0.0, agreement));
                weight += tile.Length;
            }
        }

        return weight > 0.0 ? Math.Min(1.0, sum / weight) : null;
    }

    // Directions as vectors of twice their angle, so that a line and its reverse agree.
    private struct DirectionSum
    {
        private double _cosine;
        private double _sine;
        private double _squares;

        internal double Length { get; private set; }

        // Mean cosine of twice the angle between two different pieces: a lone piece does not agree with itself.
        internal readonly double? PairAgreement
        {
            get
            {
                var pairs = (Length * Length) - _squares;
                return pairs > 1e-6 * Length * Length
                    ? ((_cosine * _cosine) + (_sine * _sine) - _squares) / pairs
                    : null;
            }
        }

        internal void Add(double chordX, double chordY)
        {
            var square = (chordX * chordX) + (chordY * chordY);
            if (square <= 0.0)
            {
                return;
            }

            var length = Math.Sqrt(square);
            Length += length;
            _squares += square;
            _cosine += ((chordX * chordX) - (chordY * chordY)) / length;
            _sine += 2.0 * chordX * chordY / length;
        }
    }
}
