using CoatScan.RealServers;
using CoatScan.StorageTests.Keys;
using CoatScan.StorageTests.Photos;

namespace CoatScan.StorageTests;

public sealed class SqliteFindingStoreTests() : FindingStoreTests(servers: null);

public sealed class PostgresFindingStoreTests(SharedServers servers) : FindingStoreTests(servers);

public sealed class SqliteRequestKeyTableTests() : RequestKeyTableTests(servers: null);

public sealed class PostgresRequestKeyTableTests(SharedServers servers) : RequestKeyTableTests(servers);

public sealed class SqliteTenantTests() : TenantTests(servers: null);

public sealed class PostgresTenantTests(SharedServers servers) : TenantTests(servers);

public sealed class SqliteAuditChainTests() : AuditChainTests(servers: null);

public sealed class PostgresAuditChainTests(SharedServers servers) : AuditChainTests(servers);

public sealed class SqliteApiKeyStoreTests() : ApiKeyStoreTests(servers: null);

public sealed class PostgresApiKeyStoreTests(SharedServers servers) : ApiKeyStoreTests(servers);

public sealed class SqliteNeededPhotoTests() : NeededPhotoTests(servers: null);

public sealed class PostgresNeededPhotoTests(SharedServers servers) : NeededPhotoTests(servers);

public sealed class SqlitePhotoStoreTests() : PhotoStoreTests(servers: null);

public sealed class PostgresPhotoStoreTests(SharedServers servers) : PhotoStoreTests(servers);

public sealed class SqlitePictureIndexTests() : PictureIndexTests(servers: null);

public sealed class PostgresPictureIndexTests(SharedServers servers) : PictureIndexTests(servers);

public sealed class SqliteFindingTableTests() : FindingTableTests(servers: null);

public sealed class PostgresFindingTableTests(SharedServers servers) : FindingTableTests(servers);
