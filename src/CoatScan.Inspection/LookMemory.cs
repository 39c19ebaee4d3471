using System.Security.Cryptography;

namespace CoatScan.Inspection;

/// <summary>Remembers what photos gave, so that a panel that is judged again with one answer more need not be looked at again.</summary>
/// <remarks>
/// What a photo gives depends on its bytes and the stated scale alone, so a remembered look is the look. The oldest are forgotten
/// first. Safe for concurrent use.
/// </remarks>
/// <param name="capacity">Most looks kept, 1 or more.</param>
public sealed class LookMemory(int capacity)
{
    private readonly Lock _lock = new();
    private readonly Dictionary<(string Sha256, double? MmPerPx), PhotoLook> _looks = [];
    private readonly Queue<(string Sha256, double? MmPerPx)> _order = new();

    /// <summary>Looks kept now.</summary>
    public int Count
    {
        get
        {
            lock (_lock)
            {
                return _looks.Count;
            }
        }
    }

    internal PhotoLook Get(PhotoBytes photo, double? mmPerPx, Func<PhotoBytes, PhotoLook> look)
    {
        var content = photo.Read();
        var key = (Convert.ToHexStringLower(SHA256.HashData(content.Span)), mmPerPx);
        PhotoLook? known;
        lock (_lock)
        {
            known = _looks.GetValueOrDefault(key);
        }

        if (known is null)
        {
            known = look(new PhotoBytes(content, photo.DisplayName, photo.Field));
            Keep(key, known);
        }

        return known with { Report = known.Report with { DisplayName = photo.DisplayName } };
    }

    private void Keep((string, double?) key, PhotoLook look)
    {
        lock (_lock)
        {
            if (!_looks.TryAdd(key, look))
            {
                return;
            }

            _order.Enqueue(key);
            while (_order.Count > capacity)
            {
                _looks.Remove(_order.Dequeue());
            }
        }
    }
}
