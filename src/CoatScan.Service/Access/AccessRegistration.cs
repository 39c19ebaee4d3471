using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Certificate;
using Microsoft.AspNetCore.Authentication.JwtBearer;
using Microsoft.AspNetCore.Authorization;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Access;

/// <summary>Access, wired: options, schemes, policies, and their order on the way of a call.</summary>
internal static class AccessRegistration
{
    private const string SchemeOfCall = "Access";

    public static IServiceCollection AddCoatScanAccess(
        this IServiceCollection services, IConfiguration configuration, AccessOptions access)
    {
        services.AddOptions<TlsOptions>().Bind(configuration.GetSection(TlsOptions.SectionName));
        services.AddOptions<AccessOptions>().Bind(configuration.GetSection(AccessOptions.SectionName)).ValidateOnStart();
        services.AddSingleton<IValidateOptions<AccessOptions>, AccessOptionsValidator>();
        services.AddSingleton<IValidateOptions<AccessOptions>, AccessOptionsConsistency>();
        services.AddOptions<QuotaOptions>().Bind(configuration.GetSection(QuotaOptions.SectionName)).ValidateOnStart();
        services.AddSingleton<IValidateOptions<QuotaOptions>, QuotaOptionsConsistency>();
        services.AddSingleton<TenantQuotas>();
        services.AddSingleton<StatusWriter>();
        services.AddSingleton<CredentialCheck>();
        services.AddSingleton<IAuthorizationMiddlewareResultHandler, AccessRefusal>();
        services.AddAuthorization(AccessRules.Define);

        var schemes = services.AddAuthentication(SchemeOfCall)
            .AddPolicyScheme(SchemeOfCall, null, policy => policy.ForwardDefaultSelector = context => SchemeFor(context, access))
            .AddScheme<AuthenticationSchemeOptions, LocalHandler>(LocalHandler.SchemeName, null)
            .AddScheme<AuthenticationSchemeOptions, ApiKeyHandler>(ApiKeyHandler.SchemeName, null);
        if (access.JwtAuthority.Length > 0)
        {
            schemes.AddJwtBearer();
            services.AddOptions<JwtBearerOptions>(JwtBearerDefaults.AuthenticationScheme)
                .Configure<IOptions<AccessOptions>>((jwt, checkedAccess) => JwtAccess.Configure(jwt, checkedAccess.Value));
        }

        if (access.ClientCertificates.Count > 0)
        {
            schemes.AddCertificate(certificates => CertificateAccess.Configure(certificates, access));
        }

        return services;
    }

    /// <summary>Who is it, whose data, may they: in this order, before any endpoint.</summary>
    public static void UseCoatScanAccess(this WebApplication application)
    {
        application.UseAuthentication();
        application.UseMiddleware<CallerMiddleware>();
        application.UseAuthorization();
    }

    /// <summary>The scheme that the credential of a call asks for.</summary>
    public static string SchemeFor(HttpContext context, AccessOptions access)
    {
        if (!access.IsOn)
        {
            return LocalHandler.SchemeName;
        }

        var credential = ApiKeyHandler.CredentialOf(context.Request);
        if (credential.Length == 0 && access.ClientCertificates.Count > 0 && context.Connection.ClientCertificate is not null)
        {
            return CertificateAuthenticationDefaults.AuthenticationScheme;
        }

        return access.JwtAuthority.Length > 0
            && credential.Length > 0
            && !credential.StartsWith(Storage.Keys.ApiKeySecret.Prefix, StringComparison.Ordinal)
                ? JwtBearerDefaults.AuthenticationScheme
                : ApiKeyHandler.SchemeName;
    }
}
