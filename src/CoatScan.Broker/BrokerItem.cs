using CoatScan.Batches;

namespace CoatScan.Broker;

/// <summary>An item that the broker delivered.</summary>
internal sealed record BrokerItem(ReadyItem Ready, BrokerSession Session, ulong Tag) : TakenItem(Ready);
