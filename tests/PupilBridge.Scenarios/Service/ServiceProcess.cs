using System.Diagnostics;
using System.Runtime.InteropServices;

namespace PupilBridge.Scenarios.Service;

/// <summary>The real service as a process of its own, on one port.</summary>
public sealed partial class ServiceProcess : IDisposable
{
    private const int Terminate = 15;
    private readonly Process process;
    private readonly List<string> said = [];
    private readonly Lock gate = new();

    private ServiceProcess(Process process)
    {
        this.process = process;
        process.OutputDataReceived += (_, line) => Keep(line.Data);
        process.ErrorDataReceived += (_, line) => Keep(line.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    /// <summary>The process's number.</summary>
    public int Id => process.Id;

    /// <summary>Whether it has ended.</summary>
    public bool HasExited => process.HasExited;

    /// <summary>What it has said on both its outputs.</summary>
    public string Said
    {
        get
        {
            lock (gate)
                return string.Join('\n', said);
        }
    }

    /// <summary>Starts it on one port and without web pages.</summary>
    /// <param name="dataFolder">Its data folder.</param>
    /// <param name="port">The port that it listens on.</param>
    /// <param name="settings">Settings, such as <c>Bridge:ReconnectCap=1</c>.</param>
    public static ServiceProcess Start(string dataFolder, string port, params string[] settings) =>
        Start(dataFolder, [port], ["Web:Enabled=false", .. settings]);

    /// <summary>Starts it.</summary>
    /// <param name="dataFolder">Its data folder.</param>
    /// <param name="ports">The ports that it listens on.</param>
    /// <param name="settings">Settings, such as <c>Bridge:ReconnectCap=1</c>.</param>
    /// <param name="environment">Variables of its environment besides those of this process.</param>
    public static ServiceProcess Start(
        string dataFolder,
        IReadOnlyList<string> ports,
        IReadOnlyList<string> settings,
        IReadOnlyDictionary<string, string>? environment = null
    )
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var (name, value) in environment ?? new Dictionary<string, string>())
            start.Environment[name] = value;
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "pupilbridge.dll"));
        start.ArgumentList.Add("serve");
        start.ArgumentList.Add("--data");
        start.ArgumentList.Add(dataFolder);
        foreach (var port in ports)
        {
            start.ArgumentList.Add("--port");
            start.ArgumentList.Add(port);
        }

        foreach (var setting in settings)
        {
            start.ArgumentList.Add("--set");
            start.ArgumentList.Add(setting);
        }

        return new ServiceProcess(Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start."));
    }

    /// <summary>Waits until something is so while the service runs.</summary>
    /// <param name="isSo">What.</param>
    /// <param name="patience">How long at most.</param>
    /// <param name="fault">What to say where it never is.</param>
    /// <exception cref="InvalidOperationException">The service ended by itself.</exception>
    /// <exception cref="TimeoutException">It never was.</exception>
    public async Task UntilAsync(Func<Task<bool>> isSo, TimeSpan patience, string fault)
    {
        var watch = Stopwatch.StartNew();
        while (!await isSo().ConfigureAwait(false))
        {
            if (HasExited)
                throw new InvalidOperationException($"The service ended by itself. It said:\n{Said}");
            if (watch.Elapsed > patience)
                throw new TimeoutException($"{fault} within {patience}. The service said:\n{Said}");
            await Task.Delay(25).ConfigureAwait(false);
        }
    }

    /// <summary>Kills it without a word (SIGKILL) and waits until it is gone.</summary>
    public void Kill()
    {
        process.Kill();
        process.WaitForExit();
    }

    /// <summary>Asks it to stop (SIGTERM) and waits.</summary>
    /// <returns>How long it took.</returns>
    /// <exception cref="TimeoutException">It is still there after 15 s; it has been killed.</exception>
    public TimeSpan Stop()
    {
        var watch = Stopwatch.StartNew();
        if (!process.HasExited && SendSignal(process.Id, Terminate) != 0 && !process.HasExited)
            throw new InvalidOperationException($"The service {process.Id} could not be asked to stop.");
        if (process.WaitForExit(TimeSpan.FromSeconds(15)))
            return watch.Elapsed;
        Kill();
        throw new TimeoutException($"The service did not stop within 15 s. It said:\n{Said}");
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        if (!process.HasExited)
            Kill();
        process.Dispose();
    }

    private void Keep(string? line)
    {
        if (line is null)
            return;
        lock (gate)
            said.Add(line);
    }

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static partial int SendSignal(int process, int signal);
}
