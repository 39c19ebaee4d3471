namespace CoatScan.Imaging.Jpeg;

/// <summary>How coarsely a JPEG keeps patterns along rows and columns, by frequency.</summary>
/// <remarks>
/// A pattern of amplitude A codes and frequency u / 16 cycles per pixel has the coefficient A sqrt(32) in its 8 x 8 block (orthonormal
/// DCT, ITU-T T.81, A.3.3); what is under half of the quantizer's step becomes zero. So everything fainter than step / (2 sqrt(32)) is lost.
/// </remarks>
internal sealed class QuantizerSteps
{
    private const int Entries = 64;

    // Where the zigzag of figure A.6 passes the first row and the first column.
    private static readonly int[] FirstRow = [0, 1, 5, 6, 14, 15, 27, 28];
    private static readonly int[] FirstColumn = [0, 2, 3, 9, 10, 20, 21, 35];

    private readonly int[] _steps;

    private QuantizerSteps(int[] steps) => _steps = steps;

    /// <summary>Step of the first coefficient, eight times the step of a block's mean; codes.</summary>
    public int First => _steps[0];

    /// <summary>Reads the tables of a DQT segment (B.2.4.1); what is cut or has no such number is left out, the decoder judges it.</summary>
    public static void ReadInto(QuantizerSteps?[] tables, ReadOnlySpan<byte> body)
    {
        while (!body.IsEmpty)
        {
            int bytes = body[0] >> 4 == 0 ? 1 : 2;
            int number = body[0] & 15;
            if (body.Length < 1 + (bytes * Entries) || number >= tables.Length)
            {
                return;
            }

            var steps = new int[Entries];
            for (int i = 0; i < Entries; i++)
            {
                steps[i] = bytes == 1 ? body[1 + i] : (body[1 + (2 * i)] << 8) + body[2 + (2 * i)];
            }

            tables[number] = new QuantizerSteps(steps);
            body = body[(1 + (bytes * Entries))..];
        }
    }

    /// <summary>Frequency in an 8 x 8 block that a pattern has, [1, 7].</summary>
    /// <param name="wavelengthPx">Wavelength of the pattern in the stored photo, pixels.</param>
    public static int FrequencyOf(double wavelengthPx) => (int)Math.Clamp(Math.Round(16 / wavelengthPx), 1, 7);

    /// <summary>Amplitude below which a pattern of a coefficient with this step is lost, codes of 0 to 255, 0 or more.</summary>
    public static double LostAmplitude(double step) => step / (2 * Math.Sqrt(32));

    /// <summary>Amplitude below which a pattern along rows or columns is lost, codes of 0 to 255, 0 or more.</summary>
    /// <param name="wavelengthPx">Wavelength of the pattern in the stored photo, pixels.</param>
    public double LostAmplitudeAt(double wavelengthPx)
    {
        int frequency = FrequencyOf(wavelengthPx);
        return LostAmplitude((_steps[FirstRow[frequency]] + _steps[FirstColumn[frequency]]) / 2.0);
    }
}
