using System.Diagnostics;
using Microsoft.Data.Sqlite;
using Microsoft.Win32.SafeHandles;
using PupilBridge.Journal;
using PupilBridge.Measure.Growth;
using PupilBridge.Worker;
using PupilBridge.Worker.Options;

namespace PupilBridge.Measure.Peers;

/// <summary>Something that makes batches of records durable.</summary>
internal interface IDurablePeer : IAsyncDisposable
{
    /// <summary>Its key in the figures.</summary>
    string Name { get; }

    /// <summary>Makes a batch durable, and returns once it is.</summary>
    /// <param name="records">How many records.</param>
    void Commit(int records);
}

/// <summary>The running bridge: events given to the keeper until the journal has acknowledged them; the exam log follows beside it.</summary>
internal sealed class BridgePeer(string folder) : IDurablePeer
{
    private readonly Bridge bridge = OpenIn(folder);
    private readonly EventStream events = new();

    public string Name => "bridge";

    /// <summary>How many entries the exam log is behind.</summary>
    public long Lag => bridge.Health.ExamLogLag;

    public void Commit(int records)
    {
        for (var i = 0; i < records; i++)
            bridge.Keeper.Submit(events.Next());
        var spin = new SpinWait();
        while (bridge.Keeper.Waiting > 0)
            spin.SpinOnce(sleep1Threshold: -1);
    }

    /// <summary>Lets the exam log catch up, so that it does not disturb who is measured next.</summary>
    public async Task RestAsync()
    {
        var watch = Stopwatch.StartNew();
        while (Lag > 0 && watch.Elapsed < TimeSpan.FromMinutes(1))
            await Task.Delay(5);
    }

    public async ValueTask DisposeAsync()
    {
        await bridge.StopAsync();
        await bridge.DisposeAsync();
    }

    private static Bridge OpenIn(string folder)
    {
        var options = new BridgeOptions { DataFolder = folder };
        options.Ports.Add("memory:none");
        return Bridge.Open(new BridgeParts { Options = options });
    }
}

/// <summary>The journal alone: the same payload appended and committed on the calling thread.</summary>
internal sealed class JournalPeer(string folder, byte[] payload) : IDurablePeer
{
    private readonly JournalWriter writer = JournalWriter.Open(
        RealDisk.Instance,
        new JournalOptions { Folder = new JournalFolder(folder) }
    );

    public string Name => "journal";

    public void Commit(int records)
    {
        for (var i = 0; i < records; i++)
            writer.Append(payload);
        if (!writer.Commit().IsDurable)
            throw new IOException("The journal could not be written.");
    }

    public ValueTask DisposeAsync()
    {
        writer.StopCleanly();
        return ValueTask.CompletedTask;
    }
}

/// <summary>SQLite through Microsoft.Data.Sqlite: WAL, synchronous=FULL, one prepared insert of the same bytes, one transaction a batch.</summary>
internal sealed class SqlitePeer : IDurablePeer
{
    private readonly SqliteConnection connection;
    private readonly SqliteCommand insert;

    public SqlitePeer(string folder, byte[] payload)
    {
        Directory.CreateDirectory(folder);
        connection = new SqliteConnection($"Data Source={Path.Combine(folder, "peer.db")};Pooling=False");
        connection.Open();
        Run("PRAGMA journal_mode=WAL");
        Run("PRAGMA synchronous=FULL");
        Run("CREATE TABLE entries (sequence INTEGER PRIMARY KEY, payload BLOB NOT NULL)");
        insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO entries (payload) VALUES ($payload)";
        insert.Parameters.AddWithValue("$payload", payload);
        insert.Prepare();
    }

    public string Name => "sqlite";

    public void Commit(int records)
    {
        using var transaction = connection.BeginTransaction();
        insert.Transaction = transaction;
        for (var i = 0; i < records; i++)
            insert.ExecuteNonQuery();
        transaction.Commit();
    }

    public ValueTask DisposeAsync()
    {
        insert.Dispose();
        connection.Dispose();
        return ValueTask.CompletedTask;
    }

    private void Run(string statement)
    {
        using var command = connection.CreateCommand();
        command.CommandText = statement;
        command.ExecuteNonQuery();
    }
}

/// <summary>A bare file: the same bytes appended in one write, and synced.</summary>
internal sealed class BarePeer : IDurablePeer
{
    private readonly SafeFileHandle file;
    private readonly byte[] payload;
    private long length;

    public BarePeer(string folder, byte[] payload)
    {
        Directory.CreateDirectory(folder);
        this.payload = payload;
        file = File.OpenHandle(Path.Combine(folder, "bare"), FileMode.CreateNew, FileAccess.ReadWrite);
    }

    public string Name => "bare_append";

    public void Commit(int records)
    {
        var bytes = new byte[records * payload.Length];
        for (var i = 0; i < records; i++)
            payload.CopyTo(bytes, i * payload.Length);
        RandomAccess.Write(file, bytes, length);
        RandomAccess.FlushToDisk(file);
        length += bytes.Length;
    }

    public ValueTask DisposeAsync()
    {
        file.Dispose();
        return ValueTask.CompletedTask;
    }
}
