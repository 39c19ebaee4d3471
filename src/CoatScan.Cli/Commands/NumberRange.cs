using System.Globalization;

namespace CoatScan.Cli.Commands;

/// <summary>The allowed range of a reading, as the contract states it.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end, allowed.</param>
/// <param name="LowAllowed">Whether the lower end itself is allowed.</param>
internal sealed record NumberRange(double Low, double High, bool LowAllowed)
{
    /// <summary>Whether the number is inside.</summary>
    public bool Holds(double number) => (LowAllowed ? number >= Low : number > Low) && number <= High;

    /// <inheritdoc/>
    public override string ToString() => LowAllowed
        ? string.Create(CultureInfo.InvariantCulture, $"{Low} to {High}")
        : string.Create(CultureInfo.InvariantCulture, $"a number above {Low}, up to {High}");
}
