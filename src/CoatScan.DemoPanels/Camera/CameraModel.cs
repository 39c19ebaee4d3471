using System.Numerics;
using System.Runtime.InteropServices;
using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using Plane = CoatScan.Metrics.Plane;

namespace CoatScan.DemoPanels.Camera;

/// <summary>A phone camera: from linear light to 8-bit sRGB.</summary>
/// <param name="PerspectiveX">Keystone along x: relative change of scale from the center to the edge.</param>
/// <param name="PerspectiveY">Keystone along y.</param>
/// <param name="Vignetting">Loss of light in the corners, [0, 1].</param>
/// <param name="BlurPx">Optical blur, sigma, pixels.</param>
/// <param name="MotionPx">Length of motion blur, pixels; 0 for none.</param>
/// <param name="MotionAngle">Its direction, radians.</param>
/// <param name="ExposureStops">Error of automatic exposure, stops.</param>
/// <param name="WhiteBalance">Gains left over after white balance, near 1.</param>
/// <param name="ShotNoise">Noise at white from photon statistics, relative.</param>
/// <param name="ReadNoise">Noise in the dark, relative to white.</param>
/// <param name="Sharpening">Strength of unsharp masking.</param>
/// <param name="Contrast">Strength of the tone curve's S shape, 0 to 1.</param>
internal sealed record CameraModel(
    float PerspectiveX,
    float PerspectiveY,
    float Vignetting,
    float BlurPx,
    float MotionPx,
    float MotionAngle,
    float ExposureStops,
    Rgb WhiteBalance,
    float ShotNoise,
    float ReadNoise,
    float Sharpening,
    float Contrast)
{
    /// <summary>No fault of any kind: pixels are what the formula says.</summary>
    public static CameraModel Ideal { get; } = new(0f, 0f, 0f, 0f, 0f, 0f, 0f, Rgb.Gray(1f), 0f, 0f, 0f, 0f);

    public static CameraModel Draw(PanelRandom random, float sizeFactor)
    {
        var warm = 0.09f * random.Gaussian();
        var green = 0.03f * random.Gaussian();
        return new CameraModel(
            Math.Clamp(0.09f * random.Gaussian(), -0.22f, 0.22f),
            Math.Clamp(0.09f * random.Gaussian(), -0.22f, 0.22f),
            random.Uniform(0f, 0.3f),
            sizeFactor * (random.Chance(0.75f) ? random.Uniform(0.4f, 0.8f) : random.LogUniform(0.7f, 1.5f)),
            random.Chance(0.1f) ? sizeFactor * random.Uniform(2f, 5f) : 0f,
            random.Angle(),
            0.35f * random.Gaussian(),
            new Rgb(1f + warm, 1f + green, 1f - warm),
            random.LogUniform(0.002f, 0.02f),
            random.LogUniform(0.0005f, 0.006f),
            random.Chance(0.6f) ? random.Uniform(0.2f, 0.9f) : 0f,
            random.Uniform(0f, 0.6f));
    }

    /// <summary>The gain that automatic exposure would choose: dark scenes are lifted, but stay darker than bright ones.</summary>
    public float Exposure(float meanLuminance) =>
        0.24f * MathF.Pow(MathF.Max(meanLuminance, 0.003f) / 0.24f, 0.4f) / MathF.Max(meanLuminance, 0.003f)
        * MathF.Pow(2f, ExposureStops);

    /// <summary>Takes the photo. Pixels are RGB, row by row.</summary>
    public byte[] Expose(PanelRandom random, LinearImage scene)
    {
        var gain = Exposure(MeanLuminance(scene));
        var rgb = new byte[scene.Width * scene.Height * 3];
        var noise = new SensorNoise(random);
        var plane = new Plane(scene.Width, scene.Height);
        var scratch = new Plane(scene.Width, scene.Height);
        ReadOnlySpan<Plane> channels = [scene.Red, scene.Green, scene.Blue];
        ReadOnlySpan<float> gains = [gain * WhiteBalance.R, gain * WhiteBalance.G, gain * WhiteBalance.B];
        for (var channel = 0; channel < 3; channel++)
        {
            Blur(channels[channel], plane);
            Develop(plane, gains[channel], noise);
            Store(plane, scratch, rgb, channel);
        }

        return rgb;
    }

    private static float MeanLuminance(LinearImage scene)
    {
        var sum = 0.0;
        var count = 0;
        for (var at = 0; at < scene.Red.Values.Length; at += 7)
        {
            // Metering weighs highlights less than their light.
            sum += MathF.Min(1.2f, scene[at].Luminance);
            count++;
        }

        return (float)(sum / count);
    }

    private void Blur(Plane scene, Plane plane) =>
        Optics.Gaussian(MotionPx > 0.5f ? Optics.Smear(scene, MotionPx, MotionAngle) : scene, BlurPx, plane);

    // From blurred light to display values, in place.
    private void Develop(Plane plane, float gain, SensorNoise noise)
    {
        var lanes = Vector<float>.Count;
        var deviates = new float[plane.Width];
        Span<float> tail = stackalloc float[lanes];
        var halfWidth = 0.5f * (plane.Width - 1);
        var halfHeight = 0.5f * (plane.Height - 1);
        var inverse = 1f / ((halfWidth * halfWidth) + (halfHeight * halfHeight));
        for (var y = 0; y < plane.Height; y++)
        {
            noise.Fill(deviates);
            var row = plane.Row(y);
            var dy = (y - halfHeight) * (y - halfHeight);
            for (var x = 0; x < row.Length; x += lanes)
            {
                // A vector of the light, and one of noise, cut to what is left of the row.
                var count = Math.Min(lanes, row.Length - x);
                var dx = Vector.ConvertToSingle(Vector<int>.Indices) + new Vector<float>(x - halfWidth);
                var share = ((dx * dx) + new Vector<float>(dy)) * inverse;
                var signal = Load(row.Slice(x, count), tail) * gain * (Vector<float>.One - (share * Vignetting));
                var variance = (Vector.Max(Vector<float>.Zero, signal) * (ShotNoise * ShotNoise))
                    + new Vector<float>(ReadNoise * ReadNoise);
                var grain = Vector.SquareRoot(variance) * Load(deviates.AsSpan(x, count), tail);
                ToneCurve.Encode(signal + grain, Contrast).CopyTo(tail);
                tail[..count].CopyTo(row[x..]);
            }
        }
    }

    private static Vector<float> Load(ReadOnlySpan<float> values, Span<float> padded)
    {
        if (values.Length == Vector<float>.Count)
        {
            return new Vector<float>(values);
        }

        values.CopyTo(padded);
        return new Vector<float>(padded);
    }

    // Sharpened and rounded to 8 bits.
    private void Store(Plane plane, Plane scratch, byte[] rgb, int channel)
    {
        var values = plane.Values.AsSpan();
        if (Sharpening > 0f)
        {
            Optics.Gaussian(plane, 1f, scratch);
            var sharp = MemoryMarshal.Cast<float, Vector<float>>(values);
            var soft = MemoryMarshal.Cast<float, Vector<float>>(scratch.Values);
            for (var i = 0; i < sharp.Length; i++)
            {
                sharp[i] += (sharp[i] - soft[i]) * Sharpening;
            }

            for (var at = sharp.Length * Vector<float>.Count; at < values.Length; at++)
            {
                values[at] += Sharpening * (values[at] - scratch.Values[at]);
            }
        }

        for (var at = 0; at < values.Length; at++)
        {
            rgb[(3 * at) + channel] = (byte)((Math.Clamp(values[at], 0f, 1f) * 255f) + 0.5f);
        }
    }
}
