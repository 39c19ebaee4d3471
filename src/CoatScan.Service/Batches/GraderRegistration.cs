using CoatScan.Batches;
using CoatScan.Imaging;
using CoatScan.Imaging.Children;
using CoatScan.Inspection;
using CoatScan.Service.Hosting;
using CoatScan.Service.Options;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Batches;

/// <summary>Makes the grader of batches: with the decoder of all calls, or with one in child processes.</summary>
internal static class GraderRegistration
{
    public static IServiceCollection AddItemGrader(this IServiceCollection services, CoatScanHostSettings settings) => services
        .AddSingleton(provider => Children(provider.GetRequiredService<IOptions<BatchOptions>>().Value, settings))
        .AddSingleton<IItemGrader>(provider => provider.GetRequiredService<DecoderChildren>().Decoders is { } children
            ? ActivatorUtilities.CreateInstance<PanelGrader>(provider, InspectorWith(provider, children))
            : ActivatorUtilities.CreateInstance<PanelGrader>(provider));

    private static PanelInspector InspectorWith(IServiceProvider provider, ChildDecoders children)
    {
        var imaging = provider.GetRequiredService<ImagingOptions>();
        var decoder = new GuardedPhotoDecoder(imaging, provider.GetRequiredService<MegapixelGate>(), children);
        return ActivatorUtilities.CreateInstance<PanelInspector>(provider, new PhotoNormalizer(decoder, imaging));
    }

    private static DecoderChildren Children(BatchOptions options, CoatScanHostSettings settings) => !options.DecodeInChildren
        ? new DecoderChildren(null)
        : settings.DecoderCommand.Count > 0
            ? new DecoderChildren(new ChildDecoders(
                new ChildDecoderSettings(settings.DecoderCommand, options.ChildMemoryMb, options.ChildCpuSeconds)))
            : throw new StartupException(
                $"{BatchOptions.SectionName}:{nameof(BatchOptions.DecodeInChildren)} needs a program that can start itself, such as 'coatscan serve'.");
}
