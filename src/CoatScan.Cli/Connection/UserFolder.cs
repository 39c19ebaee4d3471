namespace CoatScan.Cli.Connection;

/// <summary>Where the service keeps its data when nobody says where.</summary>
internal static class UserFolder
{
    /// <summary>The data folder: the one given, else <c>coatscan</c> in the user's application data.</summary>
    /// <exception cref="CommandException">The account has no home, and no folder is given.</exception>
    public static string Choose(string? given)
    {
        if (!string.IsNullOrEmpty(given))
        {
            return given;
        }

        var home = Environment.GetFolderPath(
            Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        return home.Length > 0
            ? Path.Combine(home, "coatscan")
            : throw CommandException.Usage("This account has no folder for application data; give one with --data.");
    }
}
