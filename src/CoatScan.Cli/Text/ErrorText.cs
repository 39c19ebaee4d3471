using CoatScan.Cli.Connection;

namespace CoatScan.Cli.Text;

/// <summary>A refused photo or case as a page for people.</summary>
internal static class ErrorText
{
    /// <summary>Writes the page.</summary>
    public static void Write(TextPage page, string name, ServiceError error)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(error);
        page.Rule('=');
        page.Paragraph(name, Style.Strong);
        page.Rule('-');
        page.Entry("FAILED", Phrase.Sentence(What(error, page.Words)));
        page.Entry("", page.Words.Say(Advice(error.Reason)));
    }

    /// <summary>What is wrong, in words.</summary>
    public static string What(ServiceError error, ReaderWords words) =>
        error.Message.Length > 0 ? words.Complain(error.Message) : Reason(error, words);

    /// <summary>The reason in a word or two.</summary>
    public static string Reason(ServiceError error, ReaderWords words) => words.Say(Phrase.OfId(error.Reason).ToLowerInvariant());

    private static string Advice(string reason) => reason switch
    {
        "PHOTO_TRUNCATED" => "The file ends too early: copy it from the camera again.",
        "PHOTO_FORMAT_NOT_ALLOWED" => "Save it as JPEG or PNG.",
        "PHOTO_COLOR_MODEL_NOT_ALLOWED" or "PHOTO_COLOR_PROFILE_NOT_ALLOWED" => "Save it as sRGB.",
        "PHOTO_TOO_LARGE" => "Send a smaller copy; crop to the panel rather than shrink.",
        "SERVER_BUSY" => "The service is busy: try again in a minute.",
        _ => "",
    };
}
