namespace CoatScan.Storage;

/// <summary>What a walk along the audit log found.</summary>
/// <remarks>
/// The chain shows every entry that was changed, taken out or put in between. It cannot show that the newest entries
/// were cut off: for that, keep <see cref="LastHash"/> elsewhere and look for it later.
/// </remarks>
/// <param name="Entries">Entries that are whole, counted from the first, 0 or more.</param>
/// <param name="FirstBroken">Sequence number of the first entry that does not fit; null if all fit.</param>
/// <param name="LastHash">Hash of the last whole entry, lower-case hex; 64 zeros if there is none.</param>
public sealed record AuditVerification(long Entries, long? FirstBroken, string LastHash)
{
    /// <summary>Whether every entry fits the one before it.</summary>
    public bool Intact => FirstBroken is null;
}
