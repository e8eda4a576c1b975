using System;
using System.Collections.Generic;
using System.Linq;
using System.Threading;

namespace Lampblack.Workshop.Bench;

/// <summary>Keeps the newest whole picture of each panel, drawn when it is first asked for.</summary>
/// <typeparam name="T">The pictures.</typeparam>
public sealed class PictureStore<T>
    where T : class
{
    private readonly Lock _lock = new();
    private readonly Dictionary<string, (int Version, Lazy<T?> Picture)> _faces = new(StringComparer.Ordinal);

    /// <summary>A panel's picture of a version.</summary>
    public T? Of(string panel, int version, Func<T?> draw)
    {
        Lazy<T?> picture;
        lock (_lock)
        {
            if (!_faces.TryGetValue(panel, out (int Version, Lazy<T?> Picture) kept) || kept.Version < version)
            {
                kept = (version, new(draw, LazyThreadSafetyMode.ExecutionAndPublication));
                _faces[panel] = kept;
            }

            picture = kept.Picture;
        }

        return picture.Value;
    }

    /// <summary>These panels look the same in a newer version.</summary>
    public void Keep(IEnumerable<string> panels, int version)
    {
        lock (_lock)
        {
            foreach (string panel in panels.Where(_faces.ContainsKey))
            {
                _faces[panel] = (version, _faces[panel].Picture);
            }
        }
    }
}
