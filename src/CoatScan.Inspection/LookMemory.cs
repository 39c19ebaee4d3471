using System.Security.Cryptography;
using CoatScan.Findings;

namespace CoatScan.Inspection;

/// <summary>Remembers what photos gave, so that a panel that is judged again with one answer more need not be looked at again.</summary>
/// <remarks>
/// What a photo gives depends on its bytes, the stated scale and the stated distances alone, so a remembered look is the look. The oldest are forgotten
/// first. Safe for concurrent use.
/// </remarks>
/// <param name="capacity">Most looks kept, 1 or more.</param>
public sealed class LookMemory(int capacity)
{
    private readonly Lock _lock = new();
    private readonly Dictionary<LookKey, PhotoLook> _looks = [];
    private readonly Queue<LookKey> _order = new();

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

    internal PhotoLook Get(PhotoBytes photo, PanelFacts facts, Func<PhotoBytes, PhotoLook> look)
    {
        var content = photo.Read();
        var key = new LookKey(
            Convert.ToHexStringLower(SHA256.HashData(content.Span)), facts.MmPerPx, facts.ReflectedDistanceMm, facts.CameraDistanceMm);
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

    private void Keep(LookKey key, PhotoLook look)
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

    private readonly record struct LookKey(string Sha256, double? MmPerPx, double? ReflectedDistanceMm, double? CameraDistanceMm);
}
