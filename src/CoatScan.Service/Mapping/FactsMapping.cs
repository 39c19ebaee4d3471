using System.Globalization;
using Domain = CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>What the caller knows -> contract: what <see cref="RequestMapping.ToFacts"/> read.</summary>
internal static class FactsMapping
{
    public static Wire.PanelFacts ToWire(Domain.PanelFacts facts)
    {
        var wire = new Wire.PanelFacts
        {
            Panel = facts.Panel,
            ExternalRef = facts.ExternalRef,
            AppliedOn = facts.AppliedOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "",
            Readings = ToWire(facts.Readings),
        };
        wire.Evidence.Add(facts.Evidence);
        wire.Statements.Add(facts.Statements.Select(one => new Wire.Statement { Evidence = one.Evidence, SaidBy = one.SaidBy }));
        if (facts.MmPerPx is { } mmPerPx)
        {
            wire.MmPerPx = mmPerPx;
        }

        if (facts.ReflectedDistanceMm is { } reflected)
        {
            wire.ReflectedDistanceMm = reflected;
        }

        if (facts.CameraDistanceMm is { } camera)
        {
            wire.CameraDistanceMm = camera;
        }

        return wire;
    }

    private static Wire.Readings ToWire(Domain.Readings readings)
    {
        var wire = new Wire.Readings();
        wire.FilmUm.Add(readings.FilmUm);
        wire.FilmPanels.Add(readings.FilmPanels.Select(one =>
        {
            var panel = new Wire.PanelFilm { Panel = one.Panel };
            panel.FilmUm.Add(one.FilmUm);
            return panel;
        }));
        if (readings.Gloss60 is { } gloss)
        {
            wire.Gloss60 = gloss;
        }

        if (readings.DeltaE00 is { } difference)
        {
            wire.DeltaE00 = difference;
        }

        if (readings.FaultDepthUm is { } depth)
        {
            wire.FaultDepthUm = depth;
        }

        return wire;
    }
}
