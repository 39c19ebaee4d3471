using System.Reflection;
using CoatScan.Classification;
using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Inspection;
using CoatScan.Metrics;
using CoatScan.Service.Batches;
using CoatScan.Service.Options;
using CoatScan.Storage;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Hosting;

/// <summary>The domain, wired.</summary>
internal static class ServiceRegistration
{
    /// <summary>Version of the service, as it stands in every finding.</summary>
    public static string Version { get; } =
        typeof(ServiceRegistration).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!
            .InformationalVersion.Split('+')[0];

    public static IServiceCollection AddCoatScan(this IServiceCollection services, IConfiguration configuration)
    {
        services.AddOptions<AnalysisOptions>().Bind(configuration.GetSection(AnalysisOptions.SectionName))
            .ValidateOnStart();
        services.AddSingleton<IValidateOptions<AnalysisOptions>, AnalysisOptionsValidator>();
        services.AddSingleton<IValidateOptions<AnalysisOptions>, AnalysisOptionsConsistency>();
        services.AddOptions<StorageSettings>().Bind(configuration.GetSection(StorageSettings.SectionName))
            .ValidateOnStart();
        services.AddSingleton<IValidateOptions<StorageSettings>, StorageSettingsValidator>();
        services.AddSingleton<IValidateOptions<StorageSettings>, StorageSettingsConsistency>();
        services.AddOptions<PhotoOptions>().Bind(configuration.GetSection(PhotoOptions.SectionName)).ValidateOnStart();
        services.AddSingleton<IValidateOptions<PhotoOptions>, PhotoOptionsValidator>();

        services.AddOptions<BatchOptions>().Bind(configuration.GetSection(BatchOptions.SectionName)).ValidateOnStart();
        services.AddSingleton<IValidateOptions<BatchOptions>, BatchOptionsValidator>();
        services.AddSingleton<IValidateOptions<BatchOptions>, BatchOptionsConsistency>();
        services.AddOptions<BrokerOptions>().Bind(configuration.GetSection(BrokerOptions.SectionName)).ValidateOnStart();
        services.AddSingleton<IValidateOptions<BrokerOptions>, BrokerOptionsConsistency>();
        services.AddOptions<ModelsOptions>().Bind(configuration.GetSection(ModelsOptions.SectionName));

        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<ImagingOptions>();
        services.AddSingleton(provider => new MegapixelGate(
            provider.GetRequiredService<IOptions<AnalysisOptions>>().Value.EffectiveMegapixelsInFlight));
        services.AddSingleton<IPhotoDecoder, GuardedPhotoDecoder>();
        services.AddSingleton<PhotoNormalizer>();
        services.AddSingleton<PhotoIdentifier>();
        services.AddSingleton(provider => VisualClassifier.Load(ModelFolder(provider, "classifier")));
        services.AddSingleton(provider => KnowledgeBase.Load(ModelFolder(provider, "knowledge")));
        services.AddSingleton<Diagnostician>();
        services.AddSingleton<SprayDayPlanner>();
        services.AddSingleton(MakeProvenance);
        services.AddSingleton<FindingNames>();
        services.AddSingleton<PanelInspector>();
        services.AddFindingStorage(provider => provider.GetRequiredService<IOptions<StorageSettings>>().Value.ToOptions());
        services.AddSingleton(provider => new BatchCarrier(
            provider.GetRequiredService<IOptions<BatchOptions>>(),
            provider.GetRequiredService<IOptions<BrokerOptions>>(),
            provider.GetRequiredService<TimeProvider>()));
        services.AddHostedService<StartupCheck>();
        services.AddHostedService<RetentionWorker>();
        services.AddHostedService<PhotoSweepWorker>();
        services.AddHostedService<IdleMemory>();
        return services;
    }

    private static string ModelFolder(IServiceProvider provider, string name) =>
        Path.Combine(provider.GetRequiredService<IOptions<ModelsOptions>>().Value.EffectivePath, name);

    private static Provenance MakeProvenance(IServiceProvider provider)
    {
        var model = provider.GetRequiredService<VisualClassifier>().Info;
        var knowledge = provider.GetRequiredService<KnowledgeBase>();
        return new Provenance(Version, model.Version, model.Sha256, knowledge.Version, MetricSet.Version)
        {
            KnowledgeSha256 = FolderDigest.Of(ModelFolder(provider, "knowledge")),
        };
    }
}
