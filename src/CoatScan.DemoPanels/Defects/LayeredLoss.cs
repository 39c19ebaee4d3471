using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>
/// Takes coats away where a field is positive: the deeper inside, the more coats are gone, so that edges show every coat
/// as a band with a step of its thickness. Chips and peeling share it.
/// </summary>
/// <param name="Floor">The innermost coat laid bare, an index into the stack.</param>
/// <param name="BandPx">Mean width of the bands at the edge, pixels.</param>
/// <param name="EdgePx">Half width of a torn edge, pixels.</param>
/// <param name="StepGain">How many times the coats' thickness the steps are high.</param>
internal sealed record LayeredLoss(int Floor, float BandPx, float EdgePx, float StepGain)
{
    /// <param name="context">The panel.</param>
    /// <param name="depthPx">Distance inside the outline, pixels; negative outside.</param>
    /// <param name="ragged">Unit-variance noise that makes each coat tear along its own line.</param>
    /// <param name="tone">Relative brightness of what is laid bare.</param>
    public void Remove(PanelContext context, Plane depthPx, Plane ragged, Plane tone)
    {
        var surface = context.Surface;
        var coats = context.Coats.Coats;
        var bands = new float[Floor + 1];
        for (var i = 1; i <= Floor; i++)
        {
            // The first edge is the outline itself; a coat may also tear along with the one above.
            bands[i] = i == 1 ? 0f : bands[i - 1] + (BandPx * (context.Random.Chance(0.3f) ? 0.1f : context.Random.Uniform(0.4f, 1.6f)));
        }

        for (var at = 0; at < depthPx.Values.Length; at++)
        {
            var depth = depthPx.Values[at];
            if (depth < -3f * EdgePx)
            {
                continue;
            }

            for (var layer = 1; layer <= Floor; layer++)
            {
                var wander = layer == 1 ? 0f : BandPx * 0.6f * ragged.Values[at] * ((layer & 1) == 0 ? 1f : -0.8f);
                var bare = Ramp.Smooth(-EdgePx, EdgePx, depth - bands[layer] - wander);
                if (bare <= 0f)
                {
                    continue;
                }

                surface.Cover(at, coats[layer], bare, 1f + tone.Values[at]);
                surface.HeightMm.Values[at] -= coats[layer - 1].ThicknessMm * StepGain * bare;
                if (layer == 1)
                {
                    surface.MarkDefect(at, bare);
                }
            }
        }
    }
}
