namespace CoatScan.Service.Hosting;

/// <summary>What a walk along the audit log of a store found.</summary>
/// <param name="WholeCount">Entries that are whole, counted from the first.</param>
/// <param name="FirstBroken">Number of the first entry that does not fit; null if all fit.</param>
/// <param name="LastHash">Hash of the last whole entry: kept elsewhere, it shows later that no entry was cut off.</param>
public sealed record AuditCheck(long WholeCount, long? FirstBroken, string LastHash);
