using System.Text;
using Google.Rpc;
using Grpc.Core;

namespace CoatScan.Cli.Connection;

/// <summary>Why a photo or a case was refused.</summary>
/// <param name="Code">Canonical code in upper snake case, for example <c>INVALID_ARGUMENT</c>.</param>
/// <param name="Reason">Reason in upper snake case, for example <c>PHOTO_TRUNCATED</c>.</param>
/// <param name="Message">What is wrong, in words.</param>
internal sealed record ServiceError(string Code, string Reason, string Message)
{
    /// <summary>The field at fault as the service names it; empty if none is named.</summary>
    public string Field { get; init; } = "";

    /// <summary>Whether nobody answered, as opposed to a service that answers and says that it cannot.</summary>
    public bool IsNoAnswer => Code == "UNAVAILABLE" && Reason == Code;

    /// <summary>Reads the error of a call, with the details that the service attached.</summary>
    public static ServiceError Of(RpcException failure)
    {
        var status = failure.GetRpcStatus();
        return status is not null
            ? Of(status)
            : Of(new Google.Rpc.Status { Code = (int)failure.StatusCode, Message = failure.Status.Detail });
    }

    /// <summary>Reads an error inside an answer.</summary>
    public static ServiceError Of(Google.Rpc.Status status)
    {
        ArgumentNullException.ThrowIfNull(status);
        var code = UpperSnake(((Code)status.Code).ToString());
        var reason = status.GetDetail<ErrorInfo>()?.Reason;
        var violations = status.GetDetail<BadRequest>()?.FieldViolations;
        return new(code, string.IsNullOrEmpty(reason) ? code : reason, status.Message.ReplaceLineEndings(" "))
        {
            Field = violations is { Count: > 0 } ? violations[0].Field : "",
        };
    }

    /// <summary>A fault of the caller's input that was seen before anything was sent.</summary>
    public static ServiceError Invalid(string reason, string message) => new("INVALID_ARGUMENT", reason, message);

    private static string UpperSnake(string pascal)
    {
        var text = new StringBuilder(pascal.Length + 4);
        foreach (var letter in pascal)
        {
            if (char.IsAsciiLetterUpper(letter) && text.Length > 0)
            {
                text.Append('_');
            }

            text.Append(char.ToUpperInvariant(letter));
        }

        return text.ToString();
    }
}
