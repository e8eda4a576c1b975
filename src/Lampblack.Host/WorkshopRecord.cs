using System;
using System.IO;
using System.Net.Http;
using System.Security.Cryptography;
using System.Text;
using System.Threading;
using System.Threading.Tasks;

namespace Lampblack.Host;

/// <summary>A note in the maker's own folder of where a desk's workshop is open, so that a second start joins it. Only the maker can read it: the address lets one in.</summary>
public sealed class WorkshopRecord : IDisposable
{
    private const int LongestAddress = 500;

    private readonly string _path;

    private WorkshopRecord(string path, string address)
    {
        _path = path;
        Address = address;
    }

    /// <summary>The address of its page, with the word that lets one in.</summary>
    public string Address { get; }

    /// <summary>The note of a desk; null where there is none that can be read.</summary>
    /// <param name="deskFile">The desk file.</param>
    public static WorkshopRecord? Find(string deskFile)
    {
        string path = PathOf(deskFile);
        try
        {
            return File.Exists(path) && new FileInfo(path).Length <= LongestAddress ? new(path, File.ReadAllText(path).Trim()) : null;
        }
        catch (Exception problem) when (FileProblemException.IsRefusal(problem))
        {
            return null;
        }
    }

    /// <summary>Notes where a desk's workshop is open. Where that can't be noted, a second start opens a second one; nothing is lost by it.</summary>
    /// <param name="deskFile">The desk file.</param>
    /// <param name="address">The address of its page.</param>
    public static WorkshopRecord Write(string deskFile, string address)
    {
        string path = PathOf(deskFile);
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.Delete(path);
            FileStreamOptions options = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
            {
                options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            }

            using FileStream stream = new(path, options);
            stream.Write(Encoding.UTF8.GetBytes(address));
        }
        catch (Exception problem) when (FileProblemException.IsRefusal(problem))
        {
        }

        return new(path, address);
    }

    /// <summary>Whether a workshop still answers there, and lets its own word in.</summary>
    public async Task<bool> Answers(CancellationToken cancellation)
    {
        if (!Uri.TryCreate(Address, UriKind.Absolute, out Uri? place) || !place.IsLoopback || place.Scheme != Uri.UriSchemeHttp)
        {
            return false;
        }

        try
        {
            using SocketsHttpHandler handler = new() { AllowAutoRedirect = false, UseProxy = false, UseCookies = false };
            using HttpClient client = new(handler) { Timeout = TimeSpan.FromSeconds(2) };
            using HttpResponseMessage response = await client.GetAsync(place, cancellation).ConfigureAwait(false);
            return response.StatusCode == System.Net.HttpStatusCode.Redirect;
        }
        catch (Exception problem) when (problem is HttpRequestException || (problem is TaskCanceledException && !cancellation.IsCancellationRequested))
        {
            return false;
        }
    }

    /// <summary>Takes the note away, if it is still ours.</summary>
    public void Dispose()
    {
        try
        {
            if (File.Exists(_path) && File.ReadAllText(_path).Trim() == Address)
            {
                File.Delete(_path);
            }
        }
        catch (Exception problem) when (FileProblemException.IsRefusal(problem))
        {
        }
    }

    private static string PathOf(string deskFile)
    {
        string name = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(RealPath.Of(Path.GetFullPath(deskFile)))))[..24];
        return Path.Combine(UserFolder.Locate(Environment.GetEnvironmentVariable), "open", name);
    }
}
