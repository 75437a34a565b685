using System.Collections.Concurrent;

namespace PupilBridge.Ports;

/// <summary>The memory lines of one program, by name. Thread-safe.</summary>
public sealed class MemoryLines
{
    private readonly ConcurrentDictionary<string, MemoryLine> lines = new(StringComparer.Ordinal);

    /// <summary>Makes a line known, in place of an earlier one of the same name.</summary>
    /// <param name="line">The line.</param>
    public void Add(MemoryLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        lines[line.Address.Target] = line;
    }

    /// <summary>Forgets a line; ports that are open stay so.</summary>
    /// <param name="line">The line.</param>
    public void Remove(MemoryLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        lines.TryRemove(KeyValuePair.Create(line.Address.Target, line));
    }

    /// <summary>An opener that looks the line up at each opening, so that lines may come and go.</summary>
    /// <param name="address">A memory address.</param>
    public IPortOpener Opener(PortAddress address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return new LookingUp(this, address);
    }

    private sealed class LookingUp(MemoryLines lines, PortAddress address) : IPortOpener
    {
        public string Name => address.Text;

        public ValueTask<IPort> OpenAsync()
        {
            if (lines.lines.TryGetValue(address.Target, out var line))
            {
                return line.Host.OpenAsync();
            }

            var known = string.Join(
                ", ",
                lines.lines.Keys.Order(StringComparer.Ordinal).Select(name => "memory:" + name)
            );
            var text =
                $"There is no port {Name}. The memory lines of this program are: {(known.Length == 0 ? "none" : known)}.";
            return ValueTask.FromException<IPort>(new PortOpenException(Name, PortOpenFault.Missing, text));
        }
    }
}
