namespace CoatScan.Imaging.Jpeg;

/// <summary>Passes over the codes of one 8 x 8 block at a time.</summary>
internal abstract class BlockReader(JpegComponent component)
{
    /// <summary>The component that is read.</summary>
    public JpegComponent Component => component;

    /// <summary>Passes over one block.</summary>
    public abstract void Read(int blockX, int blockY);

    /// <summary>Forgets what runs over several blocks.</summary>
    public virtual void Restart()
    {
    }
}
