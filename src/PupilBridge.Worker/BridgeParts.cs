using System.Security.Cryptography;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using PupilBridge.ExamLog;
using PupilBridge.Journal;
using PupilBridge.Keys;
using PupilBridge.Ports;
using PupilBridge.Worker.Options;

namespace PupilBridge.Worker;

/// <summary>What a bridge is made of. All but the options have defaults; tests and simulations put others in.</summary>
public sealed record BridgeParts
{
    /// <summary>What a person set; checked before the bridge opens.</summary>
    public required BridgeOptions Options { get; init; }

    /// <summary>The program's version, as it stands in the journal.</summary>
    public string ProgramVersion { get; init; } = typeof(BridgeParts).Assembly.GetName().Version?.ToString(3) ?? "?";

    /// <summary>The clock.</summary>
    public TimeProvider Time { get; init; } = TimeProvider.System;

    /// <summary>The disk of the journal.</summary>
    public IJournalDisk Disk { get; init; } = new RealDisk();

    /// <summary>The master keys with which what is encrypted is read; null where there are none.</summary>
    public KeyRing? Keys { get; init; }

    /// <summary>Whether what is written from now on is encrypted, under <see cref="Keys"/>.</summary>
    public bool Encrypt { get; init; }

    /// <summary>Gives the opener of a port's address; null for the adapters of this system.</summary>
    public Func<PortAddress, IPortOpener>? Openers { get; init; }

    /// <summary>Lists the stable names of the serial ports that are present; null for those of this system.</summary>
    public Func<IReadOnlyList<string>>? FindPorts { get; init; }

    /// <summary>Where the bridge tells what it does.</summary>
    public ILogger Logger { get; init; } = NullLogger.Instance;

    /// <summary>
    /// Where the keys of what identifies patients come from: the operating system's cryptographic generator. Only a simulation that must be
    /// able to do the same again puts another in.
    /// </summary>
    internal RandomNumberGenerator SubjectKeyChance { get; init; } = RandomNumberGenerator.Create();

    /// <summary>The journal, with the keys to read it.</summary>
    internal JournalFolder Journal => new(Options.DataFolder) { Keys = Keys };

    /// <summary>How the exam log is kept.</summary>
    internal ExamLogOptions LogOptions =>
        new()
        {
            Time = Time,
            Keys = Keys,
            Encrypt = Encrypt,
        };
}
